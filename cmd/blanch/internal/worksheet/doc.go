// Package worksheet checks a table of worked sums: each row is worked again by
// package sum, and what it states is held against that.
//
// A table is a CSV file (RFC 4180) whose first row names the columns. Needed
// are id, kind, inputs, answer and unit; rounding may stand beside them, and
// any other column is left alone. Inputs are parted by semicolons, each with
// its unit in the value or in the name:
//
//	id,kind,inputs,answer,unit,rounding
//	A,rate,dose=0.1 mcg/kg/min; weight=70 kg; amount=4 mg; volume=250 mL,26.3,mL/h,nearest tenth
//	B,rate,dose_mcg_min=8; concentration_mcg_mL=16,30,mL/h,exact
package worksheet
