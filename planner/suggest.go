package planner

import (
	"fmt"
	"regexp"
	"strconv"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// inchID is a product's id that gives its thickness as an inch fraction without its stroke: gyp-58x, ply-2332.
var inchID = regexp.MustCompile(`^([a-z]+)-(\d{1,2}?)(2|4|8|16|32)([a-z]*)$`)

// suggestProduct says which product may be meant by an id that there is none of. Shipped ids count millimetres, so who knows
// a board by its inches is told its id; else the nearest name is, of boards of the project's own units where two are as near.
func suggestProduct(name string, products []job.Product, units job.Units) string {
	if m := inchID.FindStringSubmatch(name); m != nil {
		over, _ := strconv.ParseInt(m[2], 10, 64)
		under, _ := strconv.ParseInt(m[3], 10, 64)
		thick := length.Length(over) * length.Inch / length.Length(under)
		plain := "" // without the letters behind it
		for _, p := range products {
			if p.Thickness != thick || over >= under {
				continue
			}
			if k := madeID.FindStringSubmatch(p.ID); k != nil && k[1] == m[1] {
				if k[2] == m[4] {
					return fmt.Sprintf("%s is %s/%s in thick: write that; ids count millimetres", p.ID, m[2], m[3])
				}
				if plain == "" {
					plain = p.ID
				}
			}
		}
		if plain != "" {
			return fmt.Sprintf("%s is %s/%s in thick: write that; ids count millimetres", plain, m[2], m[3])
		}
	}
	ids, foreign := []string{job.Open}, []string(nil)
	for i := range products {
		if products[i].MetricBoard() != (units == job.Metric) && products[i].Kind == job.Gypsum {
			foreign = append(foreign, products[i].ID)
			continue
		}
		ids = append(ids, products[i].ID)
	}
	return suggest(name, append(ids, foreign...))
}

// madeID is the id of a product by what it is, its thickness and what is special about it.
var madeID = regexp.MustCompile(`^([a-z]+)-[\d.]+([a-z]*)$`)
