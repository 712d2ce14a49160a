package quantity_test

import (
	"fmt"

	"blanch/sim/quantity"
)

func ExampleParse() {
	q, err := quantity.Parse("13.1ml/hr")
	fmt.Println(q, err)
	fmt.Println(quantity.Unsafe("13.1ml/hr"))

	_, err = quantity.Parse("1,000 mL")
	fmt.Println(err)
	_, err = quantity.Parse("13.1")
	fmt.Println(err)
	// Output:
	// 13.1 mL/h <nil>
	// [a number run into its unit can be misread: put a space between]
	// amount "1,000 mL" has a comma, which could mark thousands or decimals: write 1000 or 0.5 without one
	// amount "13.1": unit is missing: write it like 13.1 mL
}

func ExampleRound() {
	fmt.Println(quantity.Number(quantity.Round(18.75, 0.1)))
	// Output: 18.8
}
