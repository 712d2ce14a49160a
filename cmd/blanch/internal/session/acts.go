package session

// Acts are the actions that the learner began or tried, without the words
// that stop the attempt and the answers to questions for reflection.
func (r Record) Acts() []Said {
	var out []Said
	for _, said := range r.Said {
		if _, _, ok := reflection(said.Text); !ok && said.Text != stopSaid {
			out = append(out, said)
		}
	}
	return out
}
