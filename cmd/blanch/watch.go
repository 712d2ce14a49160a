package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"time"

	"blanch/cmd/blanch/internal/trial"
	"blanch/scenarios"
)

// watchEvery is how often the files are looked at. Modification times are
// polled: every system has them, and a library of cases is small.
const watchEvery = 300 * time.Millisecond

// stamp is what shows that a file changed.
type stamp struct {
	at   time.Time
	size int64
}

// watch checks, and checks again on every change, until the context ends.
// What cannot be read is reported and waited for: an editor may be half-way
// through saving it.
func (p *program) watch(ctx context.Context, paths []string, how checking) error {
	tick := time.NewTicker(watchEvery)
	defer tick.Stop()
	for {
		before := stamps(paths, nil) // of what is about to be read, so that no change is missed
		c, err := check(paths)
		looked := slices.Collect(maps.Keys(c.looked)) // files that a case names, there or not
		for file, stamped := range c.looked {
			if _, known := before[file]; !known && stamped != (stamp{}) {
				before[file] = stamped
			}
		}
		if err != nil {
			fmt.Fprintf(p.err, "blanch: %s\n", err)
		} else {
			if err := c.report(p.out, how); err != nil && !errors.Is(err, errFaults) {
				return err
			}
			if !how.json {
				c.retry(p.out)
			}
		}
		if !how.json {
			fmt.Fprintf(p.out, "watching; Ctrl-C ends it\n\n")
		}
		for changed := false; !changed; {
			select {
			case <-ctx.Done():
				return nil
			case <-tick.C:
			}
			changed = !maps.Equal(before, stamps(paths, looked))
		}
	}
}

// retry lets simulated learners try each case that has no faults, a few times.
func (c *checker) retry(out io.Writer) {
	faulty := map[string]bool{}
	for _, f := range c.complaints {
		faulty[f.Pos.File] = faulty[f.Pos.File] || f.Level == scenarios.Error
	}
	for _, one := range c.cases {
		if faulty[one.File] {
			continue
		}
		place, _, unread := c.places.find(one.File, one.Place)
		policy, _, unfound := c.policies.find(one.File, one.Policy)
		if unread != nil || unfound != nil || place == nil || policy == nil {
			continue
		}
		s, err := trial.New(one, place, policy)
		if err != nil {
			continue // its place or its policy has the faults, which are told
		}
		s.Called = asTyped(one.File)
		if r, err := s.Try(watchRuns, 1); err == nil {
			fmt.Fprint(out, r.Brief())
		}
	}
}

// stampOf is the stamp of a file, and nothing when it is not there.
func stampOf(file string) (s stamp) {
	if info, err := os.Stat(file); err == nil {
		s = stamp{info.ModTime(), info.Size()}
	}
	return s
}

// look stamps a file that is about to be read for the first time.
func (c *checker) look(file string) {
	if _, looked := c.looked[file]; !looked {
		c.looked[file] = stampOf(file)
	}
}

// stamps looks at every YAML file below the paths, and at single files. What
// is not there has no stamp, so coming and going are changes too.
func stamps(paths, files []string) map[string]stamp {
	found := map[string]stamp{}
	look := func(file string) {
		if s := stampOf(file); s != (stamp{}) {
			found[file] = s
		}
	}
	for _, path := range paths {
		filepath.WalkDir(path, func(file string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() {
				if ext := filepath.Ext(file); file == path || ext == ".yaml" || ext == ".yml" {
					look(file)
				}
			}
			return nil
		})
	}
	for _, file := range files {
		look(file)
	}
	return found
}
