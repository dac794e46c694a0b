package planner

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"seamwright/calc/job"
)

// yard reads which sizes of a product the job's yard has; all others of that product are marked as not for sale there.
// Sizes are named as the takeoff names them.
func (p *project) yard(n *node) {
	if n == nil || n.null {
		return
	}
	if n.kind != mapping {
		p.fault(n, "yard is a set of products", "write `product: [sizes that the yard has]`, like gyp-12: [4x8, 4x12]")
		return
	}
	seen := map[string]bool{}
	products, _ := p.catalog.sorted(p.job.Units)
	for _, x := range n.pairs {
		id := x.key.text
		if findProduct(products, id) == nil {
			var ids []string
			for _, q := range products {
				ids = append(ids, q.ID)
			}
			p.fault(x.key, fmt.Sprintf("there is no product %q in the catalog", id), suggest(id, ids))
			continue
		}
		if seen[id] {
			p.fault(x.key, fmt.Sprintf("%q stands twice in yard", id), "keep one list of its sizes")
		}
		seen[id] = true
		product := p.catalog.products[id]
		product.Sizes = p.sold(x.value, product)
		p.catalog.products[id] = product
	}
}

// sold are the sizes of a product with those marked that a list leaves out.
func (p *project) sold(n *node, product job.Product) []job.Size {
	sizes := slices.Clone(product.Sizes)
	for i := range sizes {
		sizes[i].NotSold = true
	}
	p.list(n, "the sizes that the yard has", mostSizes, func(_ int, item *node) {
		if !p.scalar(item, "a size") {
			return
		}
		i := slices.IndexFunc(sizes, func(s job.Size) bool {
			return item.text == s.Name(true) || item.text == s.Name(false) || item.text+" mm" == s.Name(false)
		})
		if i < 0 {
			var names []string
			for _, s := range sizes {
				names = append(names, s.Name(p.imperial()))
			}
			p.fault(item, fmt.Sprintf("%s is not sold in %q", product.ID, item.text),
				"it is sold in "+strings.Join(names, ", ")+"; other sizes are added under catalog")
			return
		}
		if !sizes[i].NotSold {
			p.fault(item, fmt.Sprintf("%s stands twice", item.text), "keep one")
		}
		sizes[i].NotSold = false
	})
	if n.kind == list && len(n.items) == 0 {
		p.fault(n, fmt.Sprintf("the yard has no size of %s", product.ID), "list at least one, or leave the product out to be offered all")
	}
	return sizes
}

var heavinessPattern = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(lb|kg)$`)

// kilogramsPerPound is exact by definition.
const kilogramsPerPound = 0.45359237

// heaviness reads the weight of a sheet in kg.
func (p *project) heaviness(n *node) float64 {
	const least, most = 5, 500
	if !p.scalar(n, "heaviest") {
		return 0
	}
	kg, ok := parseHeaviness(n.text)
	switch {
	case !ok:
		p.fault(n, fmt.Sprintf("heaviest: %q is not a weight", n.text), "write it like 90 lb or 40 kg")
	case kg < least || kg > most:
		p.fault(n, fmt.Sprintf("heaviest is %s; a sheet weighs between %d and %d kg", n.text, least, most), "check the unit")
	}
	return kg
}

func parseHeaviness(text string) (kg float64, ok bool) {
	m := heavinessPattern.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	kg, err := strconv.ParseFloat(m[1], 64)
	if m[2] == "lb" {
		kg = float64(kg * kilogramsPerPound)
	}
	return kg, err == nil
}
