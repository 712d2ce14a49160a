module blanch

go 1.26
