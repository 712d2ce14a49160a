package vein

// Kind is a vein of the upper limb or neck as it varies between adults.
type Kind struct {
	Name                    string
	Site                    Site
	DiameterMM, SD          float64
	Least, Most             float64 // diameters that occur
	DepthMM, DepthSD        float64
	Straight                float64
	DiameterFrom, DepthFrom string // the source, or why it is assumed
}

const duplex = "duplex study of 100 limbs of 50 adults (abstract)"

// Kinds lists the veins that a case can draw from, distal to proximal.
func Kinds() []Kind {
	return []Kind{
		{"dorsal-hand", Hand, 2.2, 0.6, 0.9, 4.0, 2.5, 0.7, 25, "assumed: 2 to 2.5 mm, from memory", "assumed: 2 to 3 mm, from memory"},
		{"wrist-cephalic", Wrist, 2.2, 0.7, 1.0, 4.8, 2.5, 0.8, 30, "2.15 mm, 1 to 4.8, 129 renal patients (Mohammed 2019); SD assumed", "assumed"},
		{"forearm-cephalic", Forearm, 2.9, 0.9, 1.4, 4.9, 4.0, 1.2, 60, duplex, "assumed: 3 to 5 mm, from memory"},
		{"forearm-basilic", Forearm, 2.2, 0.9, 0.7, 4.5, 4.0, 1.5, 50, duplex, "assumed"},
		{"median-cubital", Fossa, 4.0, 0.9, 2.0, 6.5, 4.0, 1.2, 32, "assumed: 3.5 to 4.5 mm, from memory", "assumed: 3 to 5 mm, from memory"},
		{"arm-cephalic", UpperArm, 3.1, 1.1, 0.6, 6.3, 8.0, 3.0, 80, duplex, "assumed"},
		{"arm-basilic", UpperArm, 4.2, 1.4, 1.2, 7.8, 14.0, 3.5, 80, duplex, "10 to 25 mm in a textbook chapter (radiologykey.com); mean and SD assumed"},
		{"external-jugular", Neck, 6.5, 1.2, 3.0, 10.0, 4.5, 1.2, 40, "assumed: 6 to 8 mm, from memory", "assumed: 3 to 6 mm, from memory"},
	}
}

// KindNamed is the kind of that name.
func KindNamed(name string) (Kind, bool) {
	for _, k := range Kinds() {
		if k.Name == name {
			return k, true
		}
	}
	return Kind{}, false
}

// Drawn is one person's vein of this kind, from two standard normal draws.
func (k Kind) Drawn(width, depth float64) Vein {
	return Vein{
		Site:       k.Site,
		DiameterMM: min(k.Most, max(k.Least, k.DiameterMM+float64(k.SD*width))),
		DepthMM:    max(1, k.DepthMM+float64(k.DepthSD*depth)),
		StraightMM: k.Straight,
	}
}
