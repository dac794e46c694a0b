package planner

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"

	"seamwright/assets"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/money"
)

// catalog is what can be bought: the shipped products and supplies, and over them the project's own.
type catalog struct {
	products map[string]job.Product
	supplies map[string]offer
	hour     ownHour
}

// ownHour is what an own hour is taken to be worth where a project states no rate.
type ownHour struct {
	rate    money.Money
	assumes string
}

// offer is a supply with the units it is sold in; a project is shown those of its own units, those sold in
// either, and those that it names itself.
type offer struct {
	job.Supply
	units job.Units // "": sold everywhere
	named bool      // by the project
}

// shipped is read once; the catalog is part of the program, so a fault in it is a fault of the program.
var shipped = sync.OnceValue(func() *catalog {
	c, errs := readCatalog("catalog.yaml", assets.Catalog)
	if errs != nil {
		panic("planner: shipped catalog: " + errs.Error())
	}
	return c
})

// shippedCatalog is a copy of the shipped catalog that a project may add to.
func shippedCatalog() *catalog {
	s := shipped()
	return &catalog{products: maps.Clone(s.products), supplies: maps.Clone(s.supplies), hour: s.hour}
}

// readCatalog reads a catalog file: products, supplies and the placeholder for own time.
func readCatalog(name string, src []byte) (*catalog, Errors) {
	root, errs := growTree(name, src)
	if errs != nil {
		return nil, errs
	}
	c := &catalog{products: map[string]job.Product{}, supplies: map[string]offer{}}
	r := &reader{file: name}
	r.keys(root, "the catalog", []key{
		{"own_time", true, func(n *node) { c.readOwnTime(r, n) }},
		{"products", true, func(n *node) { c.readProducts(r, n) }},
		{"supplies", true, func(n *node) { c.readSupplies(r, n) }},
	})
	if r.faults > 0 {
		return nil, r.all()
	}
	for id, s := range c.supplies {
		s.named = false
		c.supplies[id] = s
	}
	return c, nil
}

func (c *catalog) readOwnTime(r *reader, n *node) {
	var dated, source string
	r.keys(n, "own_time", []key{
		{"rate", true, func(n *node) { c.hour.rate = r.money(n, "rate") }},
		{"dated", true, func(n *node) { dated = r.text(n, "dated") }},
		{"source", true, func(n *node) { source = r.text(n, "source") }},
	})
	c.hour.assumes = "placeholder of " + dated + ": " + source
}

// sorted lists products and supplies by id.
func (c *catalog) sorted(units job.Units) ([]job.Product, []job.Supply) {
	products := make([]job.Product, 0, len(c.products))
	for _, id := range slices.Sorted(maps.Keys(c.products)) {
		products = append(products, c.products[id])
	}
	var supplies []job.Supply
	for _, id := range slices.Sorted(maps.Keys(c.supplies)) {
		if s := c.supplies[id]; s.named || s.units == "" || s.units == units {
			supplies = append(supplies, s.Supply)
		}
	}
	return products, supplies
}

var productKeys = []string{"id", "name", "kind", "thickness", "edges", "weight", "fire", "moisture", "sag", "strand", "kerf", "gap",
	"sizes", "dated", "source"}

// readProducts adds products, or changes the keys that an entry gives of a product that is known already.
func (c *catalog) readProducts(r *reader, n *node) {
	seen := map[string]bool{}
	r.list(n, "catalog", mostProducts, func(_ int, item *node) {
		id := idOf(r, item, "a product", seen)
		p, known := c.products[id]
		p.ID = id
		small := func(to *length.Length, what string, most length.Length) func(*node) {
			return func(n *node) { *to = r.length(n, what, 0, most) }
		}
		flag := func(to *bool, what string) func(*node) { return func(n *node) { *to = r.yesNo(n, what) } }
		if !r.keys(item, "a product", []key{
			{"id", true, func(*node) {}},
			{"name", false, func(n *node) { p.Name = r.text(n, "name") }},
			{"kind", !known, func(n *node) { p.Kind = choice(r, n, "kind", job.Gypsum, job.WoodPanel) }},
			{"thickness", !known, func(n *node) { p.Thickness = r.length(n, "thickness", length.Millimetre, 3*length.Inch) }},
			{"edges", false, func(n *node) { p.Tapered = choice(r, n, "edges", "tapered", "square") == "tapered" }},
			{"weight", false, func(n *node) { p.Weight = r.weight(n) }},
			{"fire", false, flag(&p.FireType, "fire")},
			{"moisture", false, flag(&p.Moisture, "moisture")},
			{"sag", false, flag(&p.Sag, "sag")},
			{"strand", false, flag(&p.Strand, "strand")},
			{"kerf", false, small(&p.Kerf, "kerf", length.Inch)},
			{"gap", false, small(&p.Gap, "gap", length.Inch)},
			{"sizes", !known, func(n *node) { p.Sizes = r.sizes(n) }},
			{"dated", false, func(n *node) { p.Dated = r.day(n) }},
			{"source", false, func(n *node) { p.Source = r.text(n, "source") }},
		}) || id == "" {
			return
		}
		if p.Name == "" {
			p.Name = p.ID
		}
		if item.get("sizes") != nil && known && item.get("dated") == nil {
			p.Dated, p.Source = "", "the project's own prices"
		}
		c.products[id] = p
	})
}

// idOf reads the id of a catalog entry that may stand only once.
func idOf(r *reader, item *node, what string, seen map[string]bool) string {
	n := item.get("id")
	if n == nil || n.null {
		return ""
	}
	id := r.id(n, what)
	if id == job.Open {
		r.fault(n, `"open" stands for bare framing and cannot be the id of a product`, "choose another id")
		return ""
	}
	if seen[id] && id != "" {
		r.fault(n, fmt.Sprintf("%q stands twice", id), "keep one entry")
	}
	seen[id] = true
	return id
}

// day reads a date that is kept as text.
func (r *reader) day(n *node) string {
	d := r.date(n, "dated")
	if d == (job.Date{}) {
		return ""
	}
	return dateText(d)
}

func dateText(d job.Date) string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

var sizeKeys = []string{"size", "price"}

// sizes reads the sheet sizes for sale, the largest kept to what a yard can hold.
func (r *reader) sizes(n *node) []job.Size {
	const largestSheet = 10 * length.Metre
	var sizes []job.Size
	r.list(n, "sizes", mostSizes, func(_ int, item *node) {
		var s job.Size
		r.keys(item, "a size", []key{
			{"size", true, func(n *node) {
				if lw := r.lengths(n, "size (with the paper or grain, across it)", 2, 1, largestSheet); lw != nil {
					s.Length, s.Width = lw[0], lw[1]
				}
			}},
			{"price", true, func(n *node) { s.Price = r.money(n, "price") }},
		})
		for _, other := range sizes {
			if other.Length == s.Length && other.Width == s.Width && s.Length > 0 {
				r.fault(item, "this size stands twice", "keep one price for it")
			}
		}
		sizes = append(sizes, s)
	})
	if n.kind == list && len(n.items) == 0 {
		r.fault(n, "no size is for sale", "list at least one size with its price")
	}
	sort.SliceStable(sizes, func(i, j int) bool {
		if sizes[i].Length != sizes[j].Length {
			return sizes[i].Length < sizes[j].Length
		}
		return sizes[i].Width < sizes[j].Width
	})
	return sizes
}

var weightPattern = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(psf|kg/m2|kg/m²)$`)

// kilogramsPerPSF turns lb/ft² into kg/m²: 0.45359237 kg over 0.09290304 m², both exact by definition.
const kilogramsPerPSF = 0.45359237 / 0.09290304

// weight reads a weight by area, in kg/m².
func (r *reader) weight(n *node) float64 {
	const heaviest = 200
	if !r.scalar(n, "weight") {
		return 0
	}
	m := weightPattern.FindStringSubmatch(n.text)
	if m == nil {
		r.fault(n, fmt.Sprintf("weight: %q is not a weight by area", n.text), "write it like 1.6 psf (lb/ft²) or 7.8 kg/m2")
		return 0
	}
	w, err := strconv.ParseFloat(m[1], 64)
	if m[2] == "psf" {
		w *= kilogramsPerPSF
	}
	if err != nil || w <= 0 || w > heaviest {
		r.fault(n, "weight is "+n.text+", which no sheet weighs", "check the unit")
		return 0
	}
	return w
}

// kindPattern is the form of the kinds of supplies.
var kindPattern = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// packUnits are what a pack can hold: pieces, volumes, lengths, areas, weights.
var packUnits = []string{"count", "gal", "L", "ft", "m", "ft2", "m2", "lb", "kg"}

var supplyKeys = []string{"id", "name", "kind", "type", "length", "units", "packs", "dated", "source"}

// readSupplies adds supplies, or changes the keys that an entry gives of one that is known already. Packs are
// changed by name; a pack of another name is added.
func (c *catalog) readSupplies(r *reader, n *node) {
	seen := map[string]bool{}
	r.list(n, "supplies", mostProducts, func(_ int, item *node) {
		id := idOf(r, item, "a supply", seen)
		s, known := c.supplies[id]
		s.ID, s.named = id, true
		if !r.keys(item, "a supply", []key{
			{"id", true, func(*node) {}},
			{"name", false, func(n *node) { s.Name = r.text(n, "name") }},
			{"kind", !known, func(n *node) {
				s.Kind = r.text(n, "kind")
				if !kindPattern.MatchString(s.Kind) {
					r.fault(n, fmt.Sprintf("%q is not a kind of supply", s.Kind), "kinds are small letters and dashes, like screw or corner-bead")
				}
			}},
			{"type", false, func(n *node) { s.Type = r.text(n, "type") }},
			{"length", false, func(n *node) { s.Length = r.length(n, "length", 1, length.Metre) }},
			{"units", false, func(n *node) { s.units = choice(r, n, "units", job.Imperial, job.Metric) }},
			{"packs", !known, func(n *node) { s.Packs = r.packs(n, s.Packs) }},
			{"dated", false, func(n *node) { s.Dated = r.day(n) }},
			{"source", false, func(n *node) { s.Source = r.text(n, "source") }},
		}) || id == "" {
			return
		}
		if s.Name == "" {
			s.Name = s.ID
		}
		if item.get("packs") != nil && known && item.get("dated") == nil {
			s.Dated, s.Source = "", "the project's own prices"
		}
		c.supplies[id] = s
	})
}

var packKeys = []string{"name", "holds", "price"}

// packs reads ways of buying a supply over those that are known.
func (r *reader) packs(n *node, known []job.Pack) []job.Pack {
	packs := slices.Clone(known)
	seen := map[string]bool{}
	r.list(n, "packs", mostSizes, func(_ int, item *node) {
		nameNode := item.get("name")
		if nameNode == nil {
			r.keys(item, "a pack", []key{{"name", true, nil}, {"holds", false, func(*node) {}}, {"price", false, func(*node) {}}})
			return
		}
		name := r.text(nameNode, "the pack's name")
		i := slices.IndexFunc(packs, func(p job.Pack) bool { return p.Name == name })
		if seen[name] {
			r.fault(nameNode, fmt.Sprintf("the pack %q stands twice", name), "keep one")
		}
		seen[name] = true
		isNew := i < 0
		if isNew {
			packs = append(packs, job.Pack{Name: name})
			i = len(packs) - 1
		}
		p := &packs[i]
		r.keys(item, "a pack", []key{
			{"name", true, func(*node) {}},
			{"holds", isNew, func(n *node) { p.Holds, p.Unit = r.holds(n) }},
			{"price", isNew, func(n *node) { p.Price = r.money(n, "price") }},
		})
	})
	return packs
}

// holds reads what a pack holds: a number and its unit, or a bare count.
func (r *reader) holds(n *node) (float64, string) {
	if !r.scalar(n, "holds") {
		return 1, "count"
	}
	amount, unit, found := strings.Cut(n.text, " ")
	if !found {
		unit = "count"
	}
	f, err := strconv.ParseFloat(amount, 64)
	if err != nil || !(f > 0 && f < 1e9) || !slices.Contains(packUnits, unit) {
		r.fault(n, fmt.Sprintf("holds: %q is not what a pack can hold", n.text),
			"write a number and one of "+strings.Join(packUnits, ", ")+", like 5 gal or 500 count")
		return 1, "count"
	}
	return f, unit
}
