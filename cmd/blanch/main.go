// Command blanch rehearses peripheral vasopressors: it plays invented
// patients in simulated time, marks what was decided, and checks the cases
// that educators write. It trains people and never advises on a real patient.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
