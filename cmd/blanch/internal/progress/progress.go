package progress

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"time"

	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/store"
)

// Path is the file of a folder, which is usually [store.Home]. Its name does
// not end as those of recordings do.
func Path(folder store.Folder) string {
	return filepath.Join(string(folder), "reviews.ndjson")
}

// Progress is what one learner has answered. It is for one goroutine; several
// may be open on one file, here or in other processes.
type Progress struct {
	path   string
	ledger *store.Ledger
	model  review.Model
	limits review.Limits

	cards  map[string]review.Card
	first  map[review.Unit][]bool
	used   map[int64]bool // numbers of the lines read
	next   int64          // number of the line after the last one read
	bad    int64          // lines since then that could not be read
	faults []string
	more   int   // faults beyond mostFaults
	torn   int   // bytes of an unfinished line at the end
	others int   // answers of other processes, taken in since it was opened
	closed error // why the file is not touched
}

// Open reads the file. One that does not exist holds no answers, and the first
// Record makes it. The error is for a file that cannot be used: it cannot be
// read at all, it is of a newer format, or none of its lines is an answer. Such
// a file is not touched.
func Open(path string) (*Progress, error) {
	p := empty(path)
	if err := p.Refresh(); err != nil {
		return nil, err
	}
	p.others = 0
	return p, nil
}

func empty(path string) *Progress {
	return &Progress{
		path: path, ledger: store.NewLedger(path), model: review.Default(), limits: review.DefaultLimits(),
		cards: map[string]review.Card{}, first: map[review.Unit][]bool{}, used: map[int64]bool{},
	}
}

// Limit sets how much a day may bring, in place of [review.DefaultLimits].
// Numbers below 0 count as 0.
func (p *Progress) Limit(l review.Limits) {
	p.limits = review.Limits{Day: max(0, l.Day), New: max(0, l.New)}
}

// Refresh takes in what other processes have recorded.
func (p *Progress) Refresh() error {
	if p.closed != nil {
		return p.closed
	}
	fresh, torn, err := p.ledger.Take()
	if err != nil {
		return err
	}
	p.torn = torn
	return p.take(fresh)
}

// take counts the answers of lines. After an error the file is used no more.
func (p *Progress) take(fresh []store.Entry) error {
	for _, e := range fresh {
		n, a, err := int64(0), review.Answer{}, e.Err
		if err == nil {
			n, a, err = read(e.Content)
		}
		switch {
		case errors.Is(err, errNewer):
			p.closed = fmt.Errorf("%s: line %d: %w", p.path, e.Line, err)
			return p.closed
		case err != nil:
			p.fault("line %d was damaged and is left out (for a developer: %v)", e.Line, err)
			p.bad++
			continue
		case p.used[n]:
			p.fault("line %d is there twice and is counted once (for a developer: it is numbered %d as an earlier line is)", e.Line, n)
			continue
		case n > p.next+p.bad:
			p.fault("before line %d one answer or more is missing (for a developer: it is numbered %d, want %d)", e.Line, n, p.next)
		case n < p.next:
			p.fault("line %d stands out of its place; it counts (for a developer: it is numbered %d, want %d)", e.Line, n, p.next)
		}
		p.use(n)
		p.count(a)
		p.others++
	}
	if len(p.used) == 0 && len(p.faults) > 0 {
		p.closed = fmt.Errorf("%s: no line of it is an answer (%s): move it away to begin anew; the file was left as it is", p.path, p.faults[0])
	}
	return p.closed
}

func (p *Progress) use(n int64) {
	p.used[n] = true
	p.next, p.bad = max(p.next, n+1), 0
}

// mostFaults bounds what is told of a file that is nothing but faults.
const mostFaults = 100

func (p *Progress) fault(format string, args ...any) {
	if len(p.faults) == mostFaults {
		p.more++
		return
	}
	p.faults = append(p.faults, fmt.Sprintf(format, args...))
}

func (p *Progress) count(a review.Answer) {
	p.cards[a.Name] = p.model.Review(p.cards[a.Name], a)
	p.first[a.Unit] = append(p.first[a.Unit], a.FirstTime())
}

// Faults tells, in sentences without the file's name, which lines could not be
// counted, and of an answer at the end that was never wholly written.
func (p *Progress) Faults() []string {
	faults := slices.Clone(p.faults)
	if p.more > 0 {
		faults = append(faults, fmt.Sprintf("%d more such lines are not told one by one", p.more))
	}
	if p.torn > 0 {
		faults = append(faults, fmt.Sprintf("the last line is unfinished (%d bytes) and does not count; the next answer takes its place", p.torn))
	}
	return faults
}

// Record keeps an answer and returns the question's card after it. When the
// error is nil the answer is on the disk; otherwise it does not count, and
// [Progress.Refresh] finds out whether it was kept all the same.
func (p *Progress) Record(a review.Answer) (review.Card, error) {
	if p.closed != nil {
		return review.Card{}, p.closed
	}
	a = kept(a)
	if err := check(a); err != nil {
		return review.Card{}, err
	}
	var n int64
	err := p.ledger.Append(func(fresh []store.Entry) ([]byte, error) {
		if err := p.take(fresh); err != nil {
			return nil, err
		}
		n = p.next + p.bad
		return write(n, a)
	})
	if err != nil {
		return review.Card{}, err
	}
	p.torn = 0
	p.use(n)
	p.count(a)
	return p.cards[a.Name], nil
}

// kept is the answer as the file gives it back.
func kept(a review.Answer) review.Answer {
	a.At = time.UnixMilli(a.At.UnixMilli()).UTC()
	a.Took = a.Took.Truncate(time.Millisecond)
	a.Allowed = a.Allowed.Truncate(time.Millisecond)
	return a
}

// Others is how many answers of other processes were taken in since the file was
// opened: more than none says that the quiz is open in another window too.
func (p *Progress) Others() int { return p.others }

// Card is the card of a question, and whether it was ever answered.
func (p *Progress) Card(name string) (review.Card, bool) {
	c, ok := p.cards[name]
	return c, ok
}

// Due returns the cards to be reviewed now, the longest due first, whatever the
// day's limit is and whether or not their questions can still be put.
func (p *Progress) Due(now time.Time) []review.Card {
	due := slices.Collect(maps.Values(p.cards))
	due = slices.DeleteFunc(due, func(c review.Card) bool { return !c.IsDue(now) })
	slices.SortFunc(due, func(a, b review.Card) int {
		return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(a.Name, b.Name))
	})
	return due
}

// Next plans what to put now from the questions that can be put.
func (p *Progress) Next(now time.Time, available review.Bank) review.Plan {
	return review.Next(available, p.cards, p.model, p.limits, now)
}

// Units returns the standing of all units in the order of study, against the
// questions that can be put: nobody has mastered what was never asked.
func (p *Progress) Units(now time.Time, available review.Bank) []review.Standing {
	return review.Stand(available, p.cards, p.model, now)
}

// Curve is the learning curve of a unit: for each answer, in order, whether it
// was right first time. It counts effort, not dates, and has the answers to
// questions that are no longer put.
func (p *Progress) Curve(u review.Unit) []bool { return slices.Clone(p.first[u]) }
