module blanch

go 1.26

require (
	github.com/expr-lang/expr v1.17.8 // indirect
	github.com/rivo/uniseg v0.4.7
	gopkg.in/yaml.v3 v3.0.1
)
