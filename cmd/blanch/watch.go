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
		var looked []string // up besides the files named
		before := stamps(paths, nil)
		c, err := check(paths)
		switch {
		case err != nil:
			fmt.Fprintf(p.err, "blanch: %s\n", err)
		default:
			if err := c.report(p.out, how); err != nil && !errors.Is(err, errFaults) {
				return err
			}
			for file := range c.sources {
				looked = append(looked, file)
			}
			maps.Copy(before, stamps(nil, looked))
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
