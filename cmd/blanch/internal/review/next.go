package review

import (
	"cmp"
	"slices"
	"time"
)

// Limits bound a day of study, which is the 20 h before now (see [Leeway]).
type Limits struct {
	Day int // different questions in a day, and as many repeats of what was missed
	New int // of these, never answered before
}

// DefaultLimits fit about 20 minutes at a minute a question, with the
// explanations read. They are our own choice.
func DefaultLimits() Limits { return Limits{Day: 20, New: 8} }

// Item is a question to be put.
type Item struct {
	Question
	New   bool // never answered
	Again bool // missed today
}

// rank is the order in which kinds of items are put.
func (i Item) rank() int { return count(i.New) + 2*count(i.Again) }

// Plan is what is to be studied now.
type Plan struct {
	Items []Item
	Held  int       // due too, but beyond the day's limit
	Later time.Time // when the next card that is not due comes; zero if none does
}

// Next plans what to study now. It is made anew after every answer.
//
// Who gets a place: what was missed today, in as many repeats as a day has
// questions, so that one long assessment is not all put right in one evening;
// then the reviews that are due. Critical ones come first, then the lower
// levels, then those least likely to be recalled. Then, while the limits of the
// day have room, new questions. These come from the lowest
// unit and level that still has some. A level or unit opens when all below it
// are mastered or wait only for other days: the standard stays, but a learner
// with a week and 20 minutes an evening is not sent home for having put right
// what was wrong.
//
// In what order: so that no two neighbours are of one unit where that can be,
// counted from the last answer on, and reviews first, then new questions, then
// what was missed today, so that its explanation is not merely repeated. Mixing topics is our choice, and is not claimed to teach
// better than blocks would.
func Next(bank Bank, cards map[string]Card, m Model, limits Limits, now time.Time) Plan {
	var (
		plan        Plan
		again, due  []waiting
		seen, fresh int // today
		repeats     int // today
		last        waiting
	)
	for _, q := range bank {
		c := cards[q.Name]
		if c.Answers == 0 {
			continue
		}
		w := waiting{q, c.Last, 0}
		isToday := today(c.Last, now)
		seen += count(isToday)
		fresh += count(today(c.First, now))
		if isToday {
			repeats += c.OfDay - 1
		}
		if isToday && (last.Name == "" || c.Last.After(last.last)) {
			last = w
		}
		switch {
		case !c.IsDue(now):
			if plan.Later.IsZero() || c.Due.Before(plan.Later) {
				plan.Later = c.Due
			}
		case isToday:
			again = append(again, w)
		default:
			w.recall = m.Recall(c.Memory, float64(Days(c.Last, now)))
			due = append(due, w)
		}
	}
	slices.SortStableFunc(due, func(a, b waiting) int {
		return cmp.Or(count(b.Critical)-count(a.Critical), cmp.Compare(a.Level, b.Level), cmp.Compare(a.recall, b.recall), a.last.Compare(b.last))
	})
	room := max(0, limits.Day-seen)
	plan.Held = max(0, len(due)-room)
	due = due[:len(due)-plan.Held]
	slices.SortStableFunc(again, func(a, b waiting) int {
		return cmp.Or(count(b.Critical)-count(a.Critical), cmp.Compare(a.Level, b.Level), a.last.Compare(b.last))
	})
	wait := max(0, len(again)-max(0, limits.Day-repeats))
	plan.Held += wait
	again = again[:len(again)-wait]
	slices.SortStableFunc(again, func(a, b waiting) int { return a.last.Compare(b.last) })
	queues := map[Unit][]Item{}
	for _, w := range due {
		queues[w.Unit] = append(queues[w.Unit], Item{Question: w.Question})
	}
	news := unseen(bank, cards)
	for _, q := range news[:max(0, min(len(news), room-len(due), limits.New-fresh))] {
		queues[q.Unit] = append(queues[q.Unit], Item{Question: q, New: true})
	}
	for _, w := range again {
		queues[w.Unit] = append(queues[w.Unit], Item{Question: w.Question, Again: true})
	}
	plan.Items = alternate(queues, last.Unit)
	return plan
}

// waiting is a question to be reviewed.
type waiting struct {
	Question
	last   time.Time
	recall float64
}

// unseen returns the new questions of the lowest level that is open and has
// some.
func unseen(bank Bank, cards map[string]Card) []Question {
	for _, u := range Units() {
		for _, level := range bank.levels(u) {
			var out []Question
			for _, q := range level {
				if cards[q.Name].Answers == 0 {
					out = append(out, q)
				}
			}
			if len(out) > 0 {
				return out
			}
			if s := standing(level, cards); !s.Waiting {
				return nil
			}
		}
	}
	return nil
}

// alternate merges queues of units so that neighbours differ where that can be:
// each time from another unit than before, and from one that is longer than all
// others together while it can still be spread among them. Otherwise the kind of
// the item decides, then the longer queue, then the order of study.
func alternate(queues map[Unit][]Item, before Unit) []Item {
	left := 0
	for _, q := range queues {
		left += len(q)
	}
	out := make([]Item, 0, left)
	for ; left > 0; left-- {
		var next Unit
		for _, u := range Units() {
			q := queues[u]
			switch {
			case u == before || len(q) == 0:
			case next == 0, 2*len(q) > left:
				next = u
			case 2*len(queues[next]) > left:
			case cmp.Or(cmp.Compare(q[0].rank(), queues[next][0].rank()), cmp.Compare(len(queues[next]), len(q))) < 0:
				next = u
			}
		}
		if next == 0 {
			next = before
		}
		out = append(out, queues[next][0])
		queues[next] = queues[next][1:]
		before = next
	}
	return out
}
