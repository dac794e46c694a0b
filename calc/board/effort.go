package board

// Effort is how much work an answer may take.
type Effort uint8

const (
	// Full is the effort behind what files, documents and commands show.
	Full Effort = iota
	// Prompt is the effort for a lawful answer, with its bound, within a frame: what stands until the full one comes.
	Prompt
)

// budget is the work of an effort: how far the search of each group may go, in units of tally.Meter, and the nesting of its
// pieces.
type budget struct {
	schemes  int   // of a zone that are looked into: the likeliest first
	zone     int64 // work of the search of a group, for each of its zones
	most     int64 // and of a group however many there are
	piece    int64 // steps of the nesting of one group, for each of its pieces
	leftover int64 // of a single group, or of what is left over between groups
}

// The budgets: of full effort for buildings of few surfaces and of many, and of a prompt answer.
var (
	deeply   = budget{schemes: 4*schemesKept + 2, zone: 250_000_000, most: 250_000_000, piece: 1000, leftover: 200_000}
	widely   = budget{schemes: 5, zone: 400_000, most: 8_000_000, piece: 250, leftover: 50_000}
	promptly = budget{schemes: 3, zone: 200_000, most: 4_000_000, piece: 100, leftover: 10_000}
)

// of is the work for the search of a group of so many zones.
func (b *budget) of(zones int) int64 { return min(b.zone*int64(zones), b.most) }

// budget is that of the effort, in a building that is searched deeply or not.
func (e Effort) budget(deep bool) *budget {
	switch {
	case e == Prompt:
		return &promptly
	case deep:
		return &deeply
	}
	return &widely
}
