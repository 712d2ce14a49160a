package progress_test

import (
	"fmt"
	"log"
	"os"
	"time"

	"blanch/cmd/blanch/internal/progress"
	"blanch/cmd/blanch/internal/review"
	"blanch/cmd/blanch/internal/store"
)

// questions is a bank as a quiz would give it.
func questions() review.Bank {
	bank, err := review.NewBank([]review.Question{
		{Name: "forearm or hand", Unit: review.Line, Level: 1, Critical: true},
		{Name: "gauge for this vein", Unit: review.Line, Level: 1},
		{Name: "4 mg in 250 mL", Unit: review.Mix, Level: 1, Critical: true},
	})
	if err != nil {
		log.Fatal(err)
	}
	return bank
}

// scratch is a file in a folder of its own.
func scratch() (path string, remove func()) {
	dir, err := os.MkdirTemp("", "progress")
	if err != nil {
		log.Fatal(err)
	}
	return progress.Path(store.Folder(dir)), func() { os.RemoveAll(dir) }
}

// An evening: what comes first is put, answered and recorded, until nothing is
// left for the day.
func Example() {
	path, remove := scratch()
	defer remove()
	p, err := progress.Open(path)
	if err != nil {
		log.Fatal(err)
	}
	bank, now := questions(), time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)
	for range 10 {
		plan := p.Next(now, bank)
		if len(plan.Items) == 0 {
			fmt.Println("the next comes on", plan.Later.Format("2 January"))
			break
		}
		q := plan.Items[0].Question
		now = now.Add(time.Minute)
		// The first time that it is put, the critical question is missed.
		card, _ := p.Card(q.Name)
		a := review.Answer{Question: q, At: now, Right: !q.Critical || card.Answers > 0, Try: 1}
		if card, err = p.Record(a); err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %v\n", q.Name, card.Grade)
	}
	fmt.Println(p.Units(now, bank)[0])
	// Output:
	// forearm or hand: again
	// gauge for this vein: good
	// forearm or hand: good
	// 4 mg in 250 mL: again
	// 4 mg in 250 mL: good
	// the next comes on 2 December
	// line: 1 done, 1 to repeat, 0 not yet seen. Still wanted: the same again on another day.
}

// A critical question counts when it was right first time on two days.
func ExampleProgress_Record() {
	path, remove := scratch()
	defer remove()
	p, err := progress.Open(path)
	if err != nil {
		log.Fatal(err)
	}
	now := time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)
	for range 3 {
		card, err := p.Record(review.Answer{Question: questions()[0], At: now, Right: true, Try: 1})
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%v; days right first time: %d; days to the next: %d\n", card.Grade, card.Right, review.Days(card.Last, card.Due))
		now = card.Due
	}
	// Output:
	// good; days right first time: 1; days to the next: 2
	// good; days right first time: 2; days to the next: 11
	// good; days right first time: 3; days to the next: 46
}

func ExampleProgress_Due() {
	path, remove := scratch()
	defer remove()
	p, err := progress.Open(path)
	if err != nil {
		log.Fatal(err)
	}
	now := time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)
	for _, q := range questions() {
		if _, err := p.Record(review.Answer{Question: q, At: now, Right: q.Critical, Try: 1}); err != nil {
			log.Fatal(err)
		}
	}
	for _, card := range p.Due(now.Add(24 * time.Hour)) {
		fmt.Println(card.Name)
	}
	// Output: gauge for this vein
}

func ExampleProgress_Next() {
	path, remove := scratch()
	defer remove()
	p, err := progress.Open(path)
	if err != nil {
		log.Fatal(err)
	}
	p.Limit(review.Limits{Day: 10, New: 1})
	for _, item := range p.Next(time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC), questions()).Items {
		fmt.Println(item.Unit, item.Level, item.Name, item.New)
	}
	// Output: line first forearm or hand true
}

func ExampleProgress_Units() {
	path, remove := scratch()
	defer remove()
	p, err := progress.Open(path)
	if err != nil {
		log.Fatal(err)
	}
	now := time.Date(2026, 12, 1, 20, 0, 0, 0, time.UTC)
	for day := range 2 {
		for _, q := range questions()[:2] {
			a := review.Answer{Question: q, At: now.Add(time.Duration(day) * 24 * time.Hour), Right: true, Try: 1}
			if _, err := p.Record(a); err != nil {
				log.Fatal(err)
			}
		}
	}
	for _, s := range p.Units(now, questions())[:3] {
		fmt.Println(s)
	}
	// Output:
	// line: 2 done, 0 to repeat, 0 not yet seen. The standard is met. This is practice, not a licence: local protocol decides.
	// mix: 0 done, 0 to repeat, 1 not yet seen.
	// sums: no questions.
}
