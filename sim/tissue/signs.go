package tissue

import (
	"math"

	"blanch/sim/portable"
)

// Sign is something that a look at the site can find.
type Sign string

// Signs of a leak. AnyLeak is any of them; slow refill alone is not, since it
// comes with blanching.
const (
	Swelling Sign = "swelling"
	Pale     Sign = "blanching"
	Cool     Sign = "coolness"
	Tight    Sign = "tightness"
	Pain     Sign = "pain"
	Slow     Sign = "slow-refill"
	AnyLeak  Sign = "leak"
)

// Signs lists every sign.
func Signs() []Sign { return []Sign{Swelling, Pale, Cool, Tight, Pain, Slow, AnyLeak} }

// When signs appear. All assumed: no study was found that times them.
const (
	feltMM      = 15.0 // least swelling that fingers find
	seenMM      = 30.0 // least swelling that a glance sees
	tightMM     = 40.0
	deepTightML = 4.0 // a deep leak feels tense from here, before it looks wide
	soreML      = 1.0
	paleUnder   = 0.7
	coolUnder   = 0.6
	burnsUnder  = 0.5
	burnsFromML = 0.2 // less is not felt
	slowUnder   = 0.7
	reach       = 1.5 // skin signs show once the radius is this many depths
	paleGain    = 1.3 // pale skin reaches beyond what swells
	paleEdgeMM  = 5.0
)

// WidthMM is the diameter of the swelling: V spread to a fixed height.
func (s *State) WidthMM() float64 { return across(s.Fluid()) }

// LeakMM is how wide the swelling would be from what leaked alone.
func (s *State) LeakMM() float64 { return across(s.V) }

func across(ml float64) float64 {
	return float64(2 * math.Sqrt(float64(ml*1000)/(portable.Pi*heightMM)))
}

// Surfaced says that the spread has reached the skin from a vein depthMM
// deep, so that skin signs can show.
func (s *State) Surfaced(depthMM float64) bool {
	return across(s.Spread)/2 >= float64(reach*depthMM)
}

// Shows says whether a competent look, with hands as well as eyes, would
// find the sign now. Tells says whether the patient can say that it hurts.
func (s *State) Shows(sign Sign, depthMM float64, tells bool) bool {
	switch sign {
	case Swelling:
		return s.WidthMM() >= feltMM && s.Surfaced(depthMM)
	case Pale:
		return s.Perfusion() < paleUnder && s.Surfaced(depthMM)
	case Cool:
		return s.Perfusion() < coolUnder && s.Surfaced(depthMM)
	case Slow:
		return s.Perfusion() < slowUnder && s.Surfaced(depthMM)
	case Tight:
		if s.Surfaced(depthMM) {
			return s.WidthMM() >= tightMM
		}
		return s.V >= deepTightML
	case Pain:
		return tells && (s.V >= soreML || s.Burns())
	case AnyLeak:
		for _, each := range []Sign{Swelling, Pale, Cool, Tight, Pain} {
			if s.Shows(each, depthMM, tells) {
				return true
			}
		}
	}
	return false
}

// Glance says whether eyes alone, without touching, would see the leak.
// Paleness is harder to see on dark skin.
func (s *State) Glance(depthMM float64, dark bool) (swollen, pale bool) {
	if !s.Surfaced(depthMM) {
		return false, false
	}
	under := paleUnder
	if dark {
		under = IschaemicUnder
	}
	return s.WidthMM() >= seenMM, s.Perfusion() < under
}

// Burns says that the shortage of blood itself hurts.
func (s *State) Burns() bool { return s.Perfusion() < burnsUnder && s.V > burnsFromML }

// Stings says that this is felt in the skin: it has surfaced, or the vein lies
// so shallow that it surfaces before it feels tense. Deeper, it aches.
func (s *State) Stings(depthMM float64) bool {
	return s.Burns() && (s.Surfaced(depthMM) || across(deepTightML)/2 >= float64(reach*depthMM))
}

// PaleMM is how far across the skin looks pale, 0 when it does not.
func (s *State) PaleMM(depthMM float64) float64 {
	if !s.Shows(Pale, depthMM, false) {
		return 0
	}
	return float64(across(s.Spread)*paleGain) + paleEdgeMM
}

// Pressed says that fluid alone presses on vessels and nerves: a tense limb.
func (s *State) Pressed() bool { return s.Fluid() > pressFrom }
