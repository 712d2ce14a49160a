package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"blanch/sim/drug"
)

// checkOpening checks what the case finds when it opens, and who is there.
func (r *reader) checkOpening(c *Case) {
	for i, l := range c.InPlace {
		path := fmt.Sprintf("lines in place/%d", i+1)
		if !r.sound(path + "/vein") {
			continue
		}
		r.known(path+"/vein", "vein", l.Vein, veinNames(c))
		for j := range i {
			if c.InPlace[j].Vein == l.Vein {
				r.twice(path+"/vein", fmt.Sprintf("lines in place/%d/vein", j+1), "a line in this vein")
			}
		}
	}
	for i, u := range c.Running {
		path := fmt.Sprintf("running when it opens/%d", i+1)
		if r.sound(path + "/drug") {
			r.known(path+"/drug", "drug", u.Drug, drug.Names())
		}
		if r.sound(path + "/vein") {
			var lines []string
			for _, l := range c.InPlace {
				lines = append(lines, l.Vein)
			}
			if !slices.Contains(lines, u.Line) {
				r.at(path+"/vein", Error, "unknown-vein", fmt.Sprintf("no line lies in %s when the case opens", quoted(u.Line)), "a vein of lines in place: "+orNone(lines))
			}
		}
		for j := range i {
			if c.Running[j].Pump == u.Pump && r.sound(path+"/pump") {
				r.twice(path+"/pump", fmt.Sprintf("running when it opens/%d/pump", j+1), "what runs on this pump")
			}
			if c.Running[j].Line == u.Line && r.sound(path+"/vein") {
				r.twice(path+"/vein", fmt.Sprintf("running when it opens/%d/vein", j+1), "what runs through this line")
			}
		}
	}
	for _, a := range c.Away {
		if path := "away/" + a.Person + "/until"; r.sound(path) {
			r.timeline(c, path, 0, a.Until)
		}
	}
	if r.sound("hand over from", "ends at") && c.Relief >= c.Ends {
		r.at("hand over from", Error, "after-the-end", fmt.Sprintf("%s is not before the end of the case, at %s", c.Relief.Clock(), c.Ends.Clock()), "a time within the case")
	}
}

func orNone(names []string) string {
	if len(names) == 0 {
		return "there are none yet"
	}
	return strings.Join(names, ", ")
}
