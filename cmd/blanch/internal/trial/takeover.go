package trial

// takeOver reads what others have left running: the order, the arm, the pump
// and the line, each for itself.
func (l *learner) takeOver() turn {
	if !l.others || l.on < 0 {
		return passed
	}
	id := l.lines[l.on].id
	if t := l.once("read-order", "", act("read-order")); t != passed {
		return t
	}
	if k := &l.lines[l.on]; !k.central {
		if t := l.firstLook(l.on); t != passed {
			return t
		}
	}
	if t := l.once("read-pump", l.pump, l.pumpAct("read-pump")); t != passed {
		return t
	}
	if t := l.once("tell-patient", "", act("tell-patient")); t != passed {
		return t
	}
	for i := range l.infusions { // each arm before the papers
		if f := &l.infusions[i]; f.others && f.on >= 0 && !l.lines[f.on].central && l.will("first-look", l.lines[f.on].id) && !l.tried("first-look", "", l.lines[f.on].id) {
			return passed
		}
	}
	if k := &l.lines[l.on]; !k.central {
		if t := l.testLine(id); t != passed {
			return t
		}
		if k := &l.lines[l.on]; k.id == id && !k.doubt && !k.signs {
			if t := l.once("say-sound", id, act("judge", word("line", id), word("verdict", "sound"))); t != passed {
				return t
			}
		}
	}
	if t := l.readUp(); t != passed {
		return t
	}
	if l.will("backup", "") && l.spares(false) == 0 {
		if t := l.proveSpare(); t != passed {
			return t
		}
	}
	if t := l.once("read-notes", "", act("read-notes")); t != passed {
		return t
	}
	return l.once("note-down", "", act("write", word("text", "taken over: order, pump and line read, the arm as found at the first look")))
}

// firstLook is the look that every later one is held against.
func (l *learner) firstLook(i int) turn {
	id := l.lines[i].id
	if l.tried("first-look", "", id) || !l.will("first-look", id) {
		return passed
	}
	l.close("first-look", "", id)
	did := l.lookAt(i) == acted
	if len(l.kind.looks) > 1 {
		for _, name := range []string{"compare", "refill"} {
			did = l.does(onLine(name, id)) || did
		}
	}
	if !did {
		return passed
	}
	return acted
}

// testLine tests a line through which a drug runs, without pushing anything
// into it: the tip under the probe, or blood where the policy lets it.
func (l *learner) testLine(id string) turn {
	switch {
	case l.p.scanner:
		return l.onceOn("test-line", "view-tip", id)
	case l.p.policy.BloodReturn != "never":
		return l.onceOn("test-line", "blood-return", id)
	}
	return passed
}
