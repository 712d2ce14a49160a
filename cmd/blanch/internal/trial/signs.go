package trial

import (
	"slices"
	"strings"

	"blanch/sim"
	"blanch/sim/vein"
)

// What a look at an arm means. Some of it can be the patient's own: an old
// bruise, skin that is cool all over. It was there at the first look, and it
// does not change; a leak is new.

// noted is what a look for something last showed.
type noted struct {
	what, word string
	value      float64
	at         sim.Time
}

// ofTheSkin are the looks that can show what a patient always had; the probe,
// the tape and the flush find only what has run out.
var ofTheSkin = sim.OwnFindings()

// weigh takes a finding for a sign, for something old, or for something that
// has to be looked into.
func (l *learner) weigh(k *line, en *sim.Entry) {
	abnormal := sim.Abnormal(en.What, en.Word, en.Value)
	i := slices.IndexFunc(k.noted, func(n noted) bool { return n.what == en.What })
	before := ""
	if i >= 0 {
		before = k.noted[i].word
	}
	k.note(en)
	switch {
	case !abnormal || before == en.Word && slices.Contains(ofTheSkin, en.What):
	case i < 0 && slices.Contains(ofTheSkin, en.What) && l.will("tell-apart", k.id):
		k.doubt, k.recheck = true, 0
	default:
		k.signs = true
	}
}

func (k *line) note(en *sim.Entry) {
	n := noted{en.What, en.Word, en.Value, en.At}
	for i := range k.noted {
		if k.noted[i].what == en.What {
			k.noted[i] = n
			return
		}
	}
	k.noted = append(k.noted, n)
}

// shows is what a look last showed, empty before it.
func (k *line) shows(what string) string {
	for _, n := range k.noted {
		if n.what == what {
			return n.word
		}
	}
	return ""
}

// lastOf is when a look for something last showed it.
func (k *line) lastOf(what string) sim.Time {
	for _, n := range k.noted {
		if n.what == what {
			return n.at
		}
	}
	return -sim.Hour
}

// tellApart looks into a sign that may be old: the other arm, the refill, the
// question, and the line itself.
func (l *learner) tellApart() turn {
	if l.on < 0 || l.lines[l.on].central || !l.lines[l.on].doubt || l.lines[l.on].signs {
		return passed
	}
	k := &l.lines[l.on]
	if k.recheck > l.now() {
		l.by(k.recheck)
		return passed
	}
	again := k.recheck > 0
	step := "tell-apart"
	if again {
		step = "tell-apart-again"
	}
	for _, t := range l.tests() {
		if again && !t.soon || l.now() < k.lastOf(t.shows)+stillTrue {
			continue
		}
		if t := l.onceOn(step, t.act, k.id); t == acted {
			return t
		}
		if k.signs {
			return passed
		}
	}
	hard := k.hardSigns()
	switch {
	case k.shows("fluid around the vein") == "" && hard >= 2:
		k.signs = true
	case hard > 0 && !again:
		k.recheck = l.now() + recheckAfter
		l.by(k.recheck)
	default:
		k.doubt = false
	}
	return passed
}

const (
	recheckAfter = 4 * sim.Minute // a sign in doubt is looked at again; a leak grows meanwhile (assumed)
	stillTrue    = 3 * sim.Minute // what a look showed need not be looked at again so soon (assumed)
)

// test is an act that tells a leak from what only looks like one.
type test struct {
	act, shows string
	soon       bool // again, after a few minutes
}

// tests are the acts that tell them apart. The test for blood is left out
// where the policy forbids it while a drug runs.
func (l *learner) tests() []test {
	tests := []test{{"compare", "compared", false}, {"feel", "swelling", true}, {"refill", "refill", true}, {"ask-pain", "pain", false}, {"uncover", "colour", true}}
	switch {
	case l.p.scanner:
		tests = append(tests, test{"view-tip", "fluid around the vein", false})
	case l.p.policy.BloodReturn != "never":
		tests = append(tests, test{"blood-return", "blood return", false})
	}
	return tests
}

// hardSigns counts the signs that neither a bruise nor cool skin gives, unless
// their words tell of the past.
func (k *line) hardSigns() (n int) {
	for _, s := range k.noted {
		if !sim.Abnormal(s.what, s.word, s.value) || ofThePast(s.word) {
			continue
		}
		switch s.what {
		case "swelling", "tension", "refill", "fluid around the vein":
			n++
		case "compared":
			if strings.Contains(s.word, "than the other arm") {
				n++
			}
		}
	}
	return n
}

// ofThePast says that the words of a finding tell of something old, or of
// both arms.
func ofThePast(said string) bool {
	said = strings.ToLower(said)
	for _, w := range []string{"since", "old", "bruise", "yesterday", "always", "years", "before", "scar", "both arms", "all the skin", "tattoo", "birthmark"} {
		if strings.Contains(said, w) {
			return true
		}
	}
	return false
}

// ofTheArm says that what was heard is about an arm or a drip.
func ofTheArm(said string) bool {
	said = " " + strings.ToLower(said)
	for _, w := range []string{" arm", " drip", " ache", " sting", " burn", " swoll", " elbow", " hand", " sore", " hurts"} {
		if strings.Contains(said, w) {
			return true
		}
	}
	return false
}

// deepLine says that a line lies where swelling is felt late.
func (l *learner) deepLine(k *line) bool {
	v := l.vein(k.id)
	return v >= 0 && (l.measured[v].deep >= deepMM || !l.measured[v].scanned && l.p.veins[v].site == vein.UpperArm)
}
