package cohort

import "testing"

func TestCourses(t *testing.T) {
	for _, c := range Courses() {
		came, err := c.Play()
		if err != nil {
			t.Error(err)
			continue
		}
		t.Logf("%-60s %.0f %.0f  %.0f min  %.0f mm  %.0f", c.Name, came.Before, came.Lowest, came.FirstSign, came.FoundMM, came.Ischaemic)
	}
}
