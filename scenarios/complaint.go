package scenarios

// Level is how serious a complaint is. The zero value is invalid.
type Level uint8

// Levels.
const (
	Error   Level = iota + 1 // the file is refused
	Warning                  // it loads; --strict refuses it
	Note
)

// Pos is a place in a file. Line and Column count from 1; Column counts
// characters, not bytes.
type Pos struct {
	File   string
	Line   int
	Column int
}

// Complaint is one fault in one place. It is data; rendering is elsewhere.
type Complaint struct {
	Level   Level
	Code    string // stable, "unknown-field"
	Pos     Pos
	Said    string // what is wrong, lower case, no full stop
	Allowed string // what would be right
	Meant   string // the likeliest meant name
	Also    *Pos   // the second place, "first defined at"
	Follows Pos    // where the complaint stands that is the cause of this one, which is told first
}
