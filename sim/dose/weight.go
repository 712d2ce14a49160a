package dose

// poundsPerKG is the teaching convention (OpenStax, Pharmacology for Nurses,
// 2.4 Dosage Calculations); the exact value is 2.20462.
const poundsPerKG = 2.2

// LBFromKG is a body weight in pounds from kg.
func LBFromKG(kg float64) float64 { return float64(kg * poundsPerKG) }
