// Package scenarios reads what educators write: cases, places, policies,
// fragments and items in YAML, and the tables of cohorts beside them; [Kinds]
// lists them. It turns bytes into checked values or into complaints that say
// what is wrong, where, and what would be right. Nothing is half-loaded.
//
// The path of a file:
//
//	bytes -> size cap -> one strict YAML document -> fields with positions
//	      -> checks against the action table, drugs and veins -> Case, Place, Policy, ...
//
// YAML is confined to this package.
package scenarios
