package plan

import (
	"slices"
	"strconv"
	"strings"
)

// Ask tells what is said at the counter: 1 tube, 2 boxes of 200, 3 x 4.5 gal pail, 14 sheets; nothing where nothing is
// bought. The exact need stands beside it.
func (i *Item) Ask() Fact { return i.AskFor(i.Buy) }

// AskFor is what is said for another number of packs than all, as for those still to buy.
func (i *Item) AskFor(n int) Fact {
	noun, of, held := strings.Cut(i.Pack, " of ")
	number, err := strconv.Atoi(of)
	switch {
	case n == 0:
		return Fact{}
	case i.Kind == SheetKind:
		return Tell("count.sheets", "count", n)
	case i.Pack == "" || i.Pack == singly:
		return Tell("ask.each", "number", n)
	case slices.Contains(packs, i.Pack):
		return Tell("ask."+i.Pack, "count", n)
	case held && err == nil && slices.Contains(packs, noun):
		return Tell("ask."+noun+"-of", "count", n, "of", number)
	}
	return Tell("ask.packs", "number", n, "pack", Pack(i.Pack))
}

// singly is the name of a pack that holds one of what it sells.
const singly = "each"

// packs are what things are packed in, as catalogs name it; other names are told as they stand.
var packs = []string{"box", "pail", "pack", "can", "roll", "tube", "bag"}

// Pack tells a pack by its name in the catalog: a box of 200, a 5 gal pail, a tube.
func Pack(name string) Fact {
	if name == singly || slices.Contains(packs, name) {
		return Tell("pack." + name)
	}
	if noun, of, held := strings.Cut(name, " of "); held && slices.Contains(packs, noun) {
		return Tell("pack."+noun+"-of", "of", of)
	}
	if at := strings.LastIndexByte(name, ' '); at > 0 && slices.Contains(packs, name[at+1:]) {
		return Tell("pack.sized-"+name[at+1:], "size", name[:at])
	}
	return Verbatim(name)
}
