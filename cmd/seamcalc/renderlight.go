package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/scene"
)

// lighting is render's flags for the finished wall under lamps.
type lighting struct {
	light, sheen, reach, view *string
	angle                     *float64
	level                     *int
	marks                     *bool
}

func (c *call) lighting() lighting {
	return lighting{
		light: c.String("light", "even", "even, or what shines on the finished walls: flood, ceiling, daylight, or several with commas; raking is flood"),
		angle: c.Float64("angle", 12, "flood lamp above the wall's plane, degrees"),
		reach: c.String("reach", "", "from the flood lamp to the middle of the wall, for example 6'; far off where left out"),
		sheen: c.String("sheen", "", "paint: flat, eggshell, satin, semi-gloss or gloss; the project's where left out"),
		level: c.Int("level", 0, "finish level 3 to 5; 0 takes the plan's"),
		view:  c.String("view", "2 m", "distance from which joints are judged"),
		marks: c.Bool("marks", false, "mark the joints that would be seen"),
	}
}

var lampNames = map[string]scene.Lamps{"raking": scene.Flood, "flood": scene.Flood, "ceiling": scene.CeilingLamps, "daylight": scene.Daylight}

// raking reads the flags; what is wrong is said in words.
func (l lighting) raking() (r scene.Raking, wrong string) {
	if *l.light != "even" {
		r.On = true
		for _, name := range strings.Split(*l.light, ",") {
			lamp, ok := lampNames[strings.TrimSpace(name)]
			if !ok {
				return r, fmt.Sprintf("--light %s: write even, raking, flood, ceiling or daylight", *l.light)
			}
			r.Lamps |= lamp
		}
	}
	if !(*l.angle > 0 && *l.angle <= 90) {
		return r, fmt.Sprintf("--angle %g: write degrees above the wall's plane, more than 0 and at most 90", *l.angle)
	}
	r.Angle, r.Level, r.Marks = *l.angle*math.Pi/180, *l.level, *l.marks
	if r.Level != 0 && (r.Level < 3 || r.Level > 5) {
		return r, fmt.Sprintf("--level %d: write 3, 4 or 5, or leave it out for the plan's", r.Level)
	}
	for _, d := range []struct {
		flag, text string
		to         *float64
	}{{"reach", *l.reach, &r.Reach}, {"view", *l.view, &r.View}} {
		if d.text == "" {
			continue
		}
		v, err := length.Parse(d.text)
		if err != nil || v <= 0 {
			return r, fmt.Sprintf("--%s %s: write a length, for example 6' or 2 m", d.flag, d.text)
		}
		*d.to = v.Metres()
	}
	if *l.sheen != "" {
		s, ok := scene.SheenNamed(*l.sheen)
		if !ok {
			return r, fmt.Sprintf("--sheen %s: write flat, eggshell, satin, semi-gloss or gloss", *l.sheen)
		}
		r.Sheen = s
	}
	return r, ""
}

// tellJoints prints, for every finished surface, how plainly its worst joint shows and what would mend it.
func tellJoints(out io.Writer, s *scene.Scene, j *job.Job, r scene.Raking) {
	imperial := j.Units != job.Metric
	for i := range s.Plan().Surfaces {
		id := s.Plan().Surfaces[i].ID
		if r.Surface != "" && id != r.Surface {
			continue
		}
		seen := s.Seen(id, r)
		if len(seen) == 0 {
			continue
		}
		n := 0
		for _, v := range seen {
			if v.Times() > 1 {
				n++
			}
		}
		w := seen[0]
		fmt.Fprintf(out, "%s: %d of %d joints would be seen; the plainest, a %s joint at %s, %s, shows %.1f %%, %.1f times what is just seen\n",
			id, n, len(seen), w.Joint.Kind, w.Joint.From.X.Show(imperial), w.Joint.From.Y.Show(imperial), 100*w.Contrast, w.Times())
		if n == 0 {
			continue
		}
		for _, m := range w.Mends {
			fmt.Fprintf(out, "  %s: %.1f times\n", m.What, m.Times)
		}
	}
}
