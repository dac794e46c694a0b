package planner

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"
	"sync"
	"time"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/schedule"
)

// FormatVersion is the version of the project file that this program reads and writes.
const FormatVersion = 1

// Limits of a project. They lie far beyond what the calculation answers in good time.
const (
	mostRooms        = 500
	mostWalls        = 5000
	mostCorners      = 200 // of a room, and of a measured line along a wall
	mostOnWall       = 200 // openings, boxes or pins of one surface
	mostZones        = 12
	mostLayers       = 4
	mostCourses      = 40
	mostStock        = 1000
	mostAlternatives = 50
	mostProducts     = 1000
	mostSizes        = 60
	mostDone         = 10_000
	mostFigures      = 500
	farthest         = 300 * length.Metre // a coordinate of the floor plan
	highest          = 30 * length.Metre
	thickestMember   = 24 * length.Inch
)

// keys of the project in the order in which new ones are written.
var projectKeys = []string{"seamwright", "name", "units", "language", "packs", "currency", "aim", "site", "rooms", "defaults", "stock",
	"alternatives", "rules", "figures", "catalog", "yard", "supplies", "progress"}

// project reads one file.
type project struct {
	*reader
	job      *job.Job
	catalog  *catalog
	defaults defaults
	packs    job.Units        // whose packs of supplies are bought
	surfaces map[string]*node // every surface id of the project, and where it is written
	murky    map[string]bool  // rooms whose outline, height or ceiling is at fault: what depends on it is not judged
	backs    []reference
	rooms    map[*node]roomRead // every sound room, by where it is written
	known    map[*node]roomRead // rooms that an earlier reading found sound, and that need no reading again
}

// reference is a place that names a surface.
type reference struct {
	at   *node
	from string // the surface that refers, "" elsewhere
	to   string
}

// readSource reads a whole project file; the error is Errors with every fault in it.
func readSource(name string, src []byte) (*reading, error) {
	root, errs := growTree(name, src)
	if errs != nil {
		return nil, errs
	}
	return readTree(name, root, nil)
}

// readTree reads a project from its tree; known rooms are taken as they are.
func readTree(name string, root *node, known map[*node]roomRead) (*reading, error) {
	p := &project{reader: &reader{file: name}, surfaces: map[string]*node{}, murky: map[string]bool{}, rooms: map[*node]roomRead{}, known: known}
	if !p.version(root) {
		return nil, p.errs
	}
	p.read(root)
	if p.faults > 0 {
		return nil, p.all()
	}
	return &reading{root: root, job: p.job, defaults: p.defaults, packs: p.packs, rooms: p.rooms}, nil
}

// version refuses files of another format before anything else is said about them.
func (p *project) version(root *node) bool {
	if root.kind != mapping {
		p.fault(root, "this is not a project", "a project is a set of keys and begins with `seamwright: 1`")
		return false
	}
	v := root.get("seamwright")
	switch {
	case v == nil:
		p.fault(root, "the format version is missing", "begin the file with `seamwright: 1`")
	case v.kind == scalar && v.text == fmt.Sprint(FormatVersion):
		return true
	case v.kind == scalar && bareNumber.MatchString(v.text) && !strings.HasPrefix(v.text, "-") && v.text != "0":
		p.fault(v, fmt.Sprintf("the file has format version %s; this program reads version %d", v.text, FormatVersion),
			"open it with a newer version of the program")
	default:
		p.fault(v, fmt.Sprintf("%q is not a format version", v.text), "write `seamwright: 1`")
	}
	return false
}

// read fills the job. Sections are read in the order in which later ones need earlier ones.
func (p *project) read(root *node) {
	p.job = &job.Job{Name: "Unnamed project", Units: job.Imperial, Currency: defaultCurrency, Aim: job.AimCost}
	j := p.job
	var rooms, alternatives *node
	section := func(name string, need bool, read func(*node)) key { return key{name, need, read} }
	p.catalog = shippedCatalog()
	p.keys(root, "the project", []key{
		section("seamwright", true, func(*node) {}),
		section("name", false, func(n *node) { j.Name = p.text(n, "the project's name") }),
		section("units", false, func(n *node) { j.Units = choice(p.reader, n, "units", job.Imperial, job.Metric) }),
		section("language", false, func(n *node) { j.Language = choice(p.reader, n, "language", job.English, job.Spanish) }),
		section("packs", false, func(n *node) { p.packs = choice(p.reader, n, "packs", job.Imperial, job.Metric) }),
		section("currency", false, p.currency),
		section("aim", false, func(n *node) {
			j.Aim = choice(p.reader, n, "aim", job.AimCost, job.AimSheets, job.AimJoints)
		}),
		section("site", false, func(*node) {}),
		section("catalog", false, func(n *node) { p.catalog.readProducts(p.reader, n) }),
		section("yard", false, func(*node) {}),
		section("supplies", false, func(n *node) { p.catalog.readSupplies(p.reader, n) }),
		section("figures", false, p.figures),
		section("rules", false, func(*node) {}),
		section("defaults", false, func(*node) {}),
		section("rooms", false, func(n *node) { rooms = n }),
		section("stock", false, p.stock),
		section("alternatives", false, func(n *node) { alternatives = n }),
		section("progress", false, p.progress),
	})
	p.yard(root.get("yard"))
	p.packs = cmp.Or(p.packs, j.Units)
	j.Products, j.Supplies = p.catalog.sorted(p.packs)
	p.site(root.get("site"))
	p.rules(root.get("rules"))
	p.readDefaults(root.get("defaults"))
	if rooms != nil {
		p.readRooms(rooms)
	}
	p.currentTasks()
	p.checkBacks()
	if alternatives != nil {
		p.alternatives(alternatives)
	}
}

// defaultCurrency is that of the shipped placeholder prices.
const defaultCurrency = "USD"

func (p *project) currency(n *node) {
	p.job.Currency = p.text(n, "currency")
	for _, c := range p.job.Currency {
		if c < 'A' || c > 'Z' || len(p.job.Currency) != 3 {
			p.fault(n, fmt.Sprintf("%q is not a currency", n.text), "write its three letters (ISO 4217), like USD or EUR")
			return
		}
	}
}

// defaultStart is the first working day where none is given: the calculation has no clock, and a file gives the
// same plan on any day.
var defaultStart = job.Date{Year: 2027, Month: 1, Day: 4}

var dayNames = []string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

func defaultSite() job.Site {
	return job.Site{Celsius: 20, Humidity: 0.5, Start: defaultStart, Hours: 8, People: 1,
		Workdays: [7]bool{time.Monday: true, time.Tuesday: true, time.Wednesday: true, time.Thursday: true, time.Friday: true}}
}

var siteKeys = []string{"temperature", "humidity", "start", "hours", "people", "workdays", "off", "tax", "rate", "quote", "access", "crew"}

var crewKeys = []string{"longest", "heaviest", "lift"}

func (p *project) site(n *node) {
	p.job.Site = defaultSite()
	p.job.Site.Assumed, p.job.Site.Assumes = p.catalog.hour.rate, p.catalog.hour.assumes
	if n == nil || n.null {
		return
	}
	s := &p.job.Site
	opening := func(n *node, what string) length.Length { return p.length(n, what, 0, farthest) }
	p.keys(n, "site", []key{
		{"temperature", false, func(n *node) { s.Celsius = p.temperature(n, "temperature") }},
		{"humidity", false, func(n *node) { s.Humidity = p.percent(n, "humidity", 1) }},
		{"start", false, func(n *node) { s.Start = p.date(n, "start") }},
		{"hours", false, func(n *node) { s.Hours = p.number(n, "hours", 0.25, 24) }},
		{"people", false, func(n *node) { s.People = p.whole(n, "people", 1, 100) }},
		{"workdays", false, p.workdays},
		{"off", false, p.off},
		{"tax", false, func(n *node) { s.TaxRate = p.percent(n, "tax", 1) }},
		{"rate", false, func(n *node) { s.Rate, s.Assumed, s.Assumes = p.money(n, "rate"), 0, "" }},
		{"quote", false, func(n *node) { s.Quote = p.money(n, "quote") }},
		{"access", false, func(n *node) {
			p.keys(n, "access", []key{
				{"door", false, func(n *node) {
					if wh := p.lengths(n, "door (width, height)", 2, 1, farthest); wh != nil {
						s.Access.DoorWidth, s.Access.DoorHeight = wh[0], wh[1]
					}
				}},
				{"corridor", false, func(n *node) { s.Access.Corridor = opening(n, "corridor") }},
				{"turn", false, func(n *node) { s.Access.Turn = opening(n, "turn") }},
				{"stair", false, func(n *node) {
					if wh := p.lengths(n, "stair (width, headroom)", 2, 1, farthest); wh != nil {
						s.Access.StairWidth, s.Access.StairHeight = wh[0], wh[1]
					}
				}},
			})
		}},
		{"crew", false, func(n *node) {
			s.Crew.Known = p.keys(n, "crew", []key{
				{"longest", false, func(n *node) { s.Crew.Longest = p.length(n, "longest", length.Foot, farthest) }},
				{"heaviest", false, func(n *node) { s.Crew.Heaviest = p.heaviness(n) }},
				{"lift", false, func(n *node) { s.Crew.Lift = p.yesNo(n, "lift") }},
			})
		}},
	})
}

func (p *project) workdays(n *node) {
	days := &p.job.Site.Workdays
	*days = [7]bool{}
	p.list(n, "workdays", 7, func(_ int, item *node) {
		name := choice(p.reader, item, "a workday", dayNames...)
		for i, d := range dayNames {
			if d != name {
				continue
			}
			if days[i] {
				p.fault(item, name+" stands twice in workdays", "keep one")
			}
			days[i] = true
		}
	})
	if *days == [7]bool{} && n.kind == list && len(n.items) == 0 {
		p.fault(n, "no day is a workday", "name at least one of mon, tue, wed, thu, fri, sat, sun")
	}
}

// mostOff is how many days off a calendar may name.
const mostOff = 400

// off are the days on which nobody works, in order.
func (p *project) off(n *node) {
	days := &p.job.Site.Off
	p.list(n, "off", mostOff, func(_ int, item *node) {
		d := p.date(item, "a day off")
		if slices.Contains(*days, d) {
			p.fault(item, dateText(d)+" stands twice in off", "keep one")
			return
		}
		*days = append(*days, d)
	})
	slices.SortFunc(*days, func(a, b job.Date) int { return strings.Compare(dateText(a), dateText(b)) })
}

func defaultRules() job.Rules {
	return job.Rules{
		Stagger: 16 * length.Inch, LeastPiece: 16 * length.Inch, LeastCourse: 6 * length.Inch, Opening: 6 * length.Inch,
		Backing: 2 * length.Inch, FloorGap: length.Inch / 2, Fit: length.Inch / 8, Screws: 12 * length.Inch, Cutouts: job.Notch, Rakes: job.RakesApart,
	}
}

var ruleKeys = []string{"stagger", "least_piece", "least_course", "opening", "backing", "floor_gap", "fit", "screws",
	"cutouts", "rakes", "back_blocking"}

func (p *project) rules(n *node) {
	p.job.Rules = defaultRules()
	if n == nil || n.null {
		return
	}
	u := &p.job.Rules
	rule := func(name string, to *length.Length, least, most length.Length) key {
		return key{name, false, func(n *node) { *to = p.length(n, name, least, most) }}
	}
	p.keys(n, "rules", []key{
		rule("stagger", &u.Stagger, 0, 96*length.Inch),
		rule("least_piece", &u.LeastPiece, 0, 96*length.Inch),
		rule("least_course", &u.LeastCourse, 0, 48*length.Inch),
		rule("opening", &u.Opening, 0, 48*length.Inch),
		rule("backing", &u.Backing, 0, 24*length.Inch),
		rule("floor_gap", &u.FloorGap, 0, 6*length.Inch),
		rule("fit", &u.Fit, 0, length.Inch),
		rule("screws", &u.Screws, 2*length.Inch, 24*length.Inch),
		{"cutouts", false, func(n *node) { u.Cutouts = choice(p.reader, n, "cutouts", job.Notch, job.RectOnly) }},
		{"rakes", false, func(n *node) { u.Rakes = choice(p.reader, n, "rakes", job.RakesApart, job.RakesPaired) }},
		{"back_blocking", false, func(n *node) { u.BackBlocking = p.yesNo(n, "back_blocking") }},
	})
}

// figureIDs lists the figures of the trade that a project may set.
var figureIDs = sync.OnceValue(func() []string {
	var ids []string
	for _, f := range calc.Figures() {
		ids = append(ids, f.ID)
	}
	slices.Sort(ids)
	return ids
})

// figures reads the user's own values for adjustable figures of the trade.
func (p *project) figures(n *node) {
	if n.kind != mapping {
		p.fault(n, "figures is a set of keys", "write `figure-id: number`, one a line")
		return
	}
	p.job.Figures = map[string]float64{}
	if len(n.pairs) > mostFigures {
		p.fault(n, fmt.Sprintf("figures has more than %d entries", mostFigures), "keep those that differ from the shipped values")
		return
	}
	for _, x := range n.pairs {
		if known := figureIDs(); !slices.Contains(known, x.key.text) {
			p.fault(x.key, fmt.Sprintf("there is no adjustable figure %q", x.key.text), suggest(x.key.text, known))
			continue
		}
		if _, twice := p.job.Figures[x.key.text]; twice {
			p.fault(x.key, fmt.Sprintf("%q stands twice in figures", x.key.text), "keep one")
		}
		p.job.Figures[x.key.text] = p.number(x.value, x.key.text, -1e9, 1e9)
	}
}

var stockKeys = []string{"product", "size", "edges", "count", "note"}

func (p *project) stock(n *node) {
	products, _ := p.catalog.sorted(p.packs)
	p.list(n, "stock", mostStock, func(_ int, item *node) {
		s := job.Stock{Count: 1}
		var size *node
		var edges *string
		if !p.keys(item, "a stock piece", []key{
			{"product", true, func(n *node) { s.Product = p.product(n, products) }},
			{"size", true, func(n *node) {
				size = n
				if lw := p.lengths(n, "size (with the paper or grain, across it)", 2, 1, farthest); lw != nil {
					s.Length, s.Width = lw[0], lw[1]
				}
			}},
			{"edges", false, func(n *node) {
				e := choice(p.reader, n, "edges", "tapered", "cut")
				edges = &e
			}},
			{"count", false, func(n *node) { s.Count = p.whole(n, "count", 1, 10_000) }},
			{"note", false, func(n *node) { s.Note = p.text(n, "note") }},
		}) {
			return
		}
		if product := findProduct(products, s.Product); product != nil {
			p.stockFits(size, product, s)
			s.Tapered = edges != nil && *edges == "tapered"
			if s.Tapered && !product.Tapered {
				p.fault(item.get("edges"), fmt.Sprintf("%s has square edges, so a piece of it cannot be tapered", s.Product), "write `edges: cut`")
			}
		}
		p.job.Stock = append(p.job.Stock, s)
	})
}

// stockFits refuses a piece that no sheet of the product could have given.
func (p *project) stockFits(at *node, product *job.Product, s job.Stock) {
	if s.Length <= 0 || s.Width <= 0 || len(product.Sizes) == 0 {
		return
	}
	var longest, widest length.Length
	for _, z := range product.Sizes {
		if s.Length <= z.Length && s.Width <= z.Width {
			return
		}
		longest, widest = max(longest, z.Length), max(widest, z.Width)
	}
	p.fault(at, fmt.Sprintf("the piece is larger than any sheet of %s, which is sold up to %s by %s", s.Product,
		longest.Show(p.imperial()), widest.Show(p.imperial())),
		"check the size (with the paper or grain first), or add the sheet's size to the catalog")
}

func (p *project) imperial() bool { return p.job.Units != job.Metric }

// product reads a product id.
func (p *project) product(n *node, products []job.Product) string {
	if !p.scalar(n, "a product") {
		return ""
	}
	if findProduct(products, n.text) == nil {
		p.fault(n, fmt.Sprintf("there is no product %q in the catalog", n.text), suggestProduct(n.text, products, p.job.Units))
		return ""
	}
	return n.text
}

func findProduct(products []job.Product, id string) *job.Product {
	i := sort.Search(len(products), func(i int) bool { return products[i].ID >= id })
	if i < len(products) && products[i].ID == id {
		return &products[i]
	}
	return nil
}

func (p *project) alternatives(n *node) {
	names := map[string]bool{}
	p.list(n, "alternatives", mostAlternatives, func(_ int, item *node) {
		var a job.Alternative
		p.keys(item, "an alternative", []key{
			{"name", true, func(n *node) {
				a.Name = p.text(n, "the alternative's name")
				if names[a.Name] {
					p.fault(n, fmt.Sprintf("two alternatives are called %q", a.Name), "give each its own name")
				}
				names[a.Name] = true
			}},
			{"set", false, func(n *node) {
				p.list(n, "set", mostWalls, func(_ int, item *node) { a.Set = append(a.Set, p.liningChange(item)) })
			}},
		})
		p.job.Alternatives = append(p.job.Alternatives, a)
	})
}

func (p *project) liningChange(n *node) job.LiningChange {
	var c job.LiningChange
	p.keys(n, "a change of lining", []key{
		{"walls", true, func(n *node) {
			p.list(n, "walls", mostWalls, func(_ int, item *node) {
				if p.scalar(item, "a wall") {
					p.knownSurface(item, item.text)
					c.Surfaces = append(c.Surfaces, item.text)
				}
			})
		}},
		{"lining", true, func(n *node) { c.Lining = p.lining(n, p.defaults.finish) }},
	})
	for _, s := range c.Surfaces {
		p.zonesFit(n.get("lining"), s, c.Lining)
	}
	return c
}

// knownSurface complains about a surface id that the project has not got.
func (p *project) knownSurface(at *node, id string) {
	if p.surfaces[id] != nil || p.murky[roomOf(id)] {
		return
	}
	if p.faults > shownErrors { // among thousands of surfaces finding a suggestion takes time
		p.fault(at, fmt.Sprintf("there is no surface %q", id), "write room and wall, like studio/south")
		return
	}
	ids := make([]string, 0, len(p.surfaces))
	for s := range p.surfaces {
		ids = append(ids, s)
	}
	sort.Strings(ids)
	remedy := suggest(id, ids)
	if !strings.Contains(id, "/") {
		remedy = "write room and wall, like studio/south; " + remedy
	}
	p.fault(at, fmt.Sprintf("there is no surface %q", id), remedy)
}

// currentTasks gives the tasks that are ticked off the ids that they have now.
func (p *project) currentTasks() {
	rooms := roomIDs(p.job.Rooms)
	for i := range p.job.Progress {
		d := &p.job.Progress[i]
		d.Task = schedule.CurrentID(d.Task, rooms)
	}
}

var doneKeys = []string{"task", "on", "hours", "used"}

func (p *project) progress(n *node) {
	seen := map[string]bool{}
	p.list(n, "progress", mostDone, func(_ int, item *node) {
		var d job.Done
		p.keys(item, "an entry of progress", []key{
			{"task", true, func(n *node) {
				d.Task = p.text(n, "task")
				if seen[d.Task] {
					p.fault(n, fmt.Sprintf("the task %q stands twice in progress", d.Task), "keep one entry")
				}
				seen[d.Task] = true
			}},
			{"on", false, func(n *node) { d.On = p.date(n, "on") }},
			{"hours", false, func(n *node) { d.Hours = p.number(n, "hours", 0, 100_000) }},
			{"used", false, func(n *node) {
				p.list(n, "used", mostProducts, func(_ int, item *node) {
					var u job.Used
					p.keys(item, "an entry of used", []key{
						{"item", true, func(n *node) { u.Item = p.text(n, "item") }},
						{"quantity", true, func(n *node) { u.Quantity = p.number(n, "quantity", 0, 1e9) }},
					})
					d.Used = append(d.Used, u)
				})
			}},
		})
		p.job.Progress = append(p.job.Progress, d)
	})
}
