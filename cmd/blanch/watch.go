package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"time"
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
		var looked []string          // files that a case names
		c, err := check(paths)
		if err != nil {
			fmt.Fprintf(p.err, "blanch: %s\n", err)
		} else {
			for file := range c.sources {
				if _, known := before[file]; !known {
					looked = append(looked, file)
				}
			}
			maps.Copy(before, stamps(nil, looked))
			if err := c.report(p.out, how); err != nil && !errors.Is(err, errFaults) {
				return err
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

// stamps looks at every YAML file below the paths, and at single files. What
// is not there has no stamp, so coming and going are changes too.
func stamps(paths, files []string) map[string]stamp {
	found := map[string]stamp{}
	look := func(file string) {
		if info, err := os.Stat(file); err == nil {
			found[file] = stamp{info.ModTime(), info.Size()}
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
