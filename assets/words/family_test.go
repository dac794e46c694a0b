package words

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/layout"
	"seamwright/calc/plan"
)

// families are the phrases whose keys the source puts together from a code, and all the codes that there are.
var families = map[string][]string{
	"product.": {"gyp-10", "gyp-12", "gyp-12c", "gyp-12m", "gyp-16x", "gyp-16m", "ply-6", "ply-9", "ply-12", "ply-18", "osb-11", "gyp-12_5", "gyp-15x", "ply-18-metric"}, // of the catalog that ships
	"figure.":  idsOf(calc.Figures()),
	"joint-kind.": strs(plan.Tapered, plan.Mixed, plan.Butt, plan.PanelGap, plan.InsideCorner, plan.OutsideCorner, plan.Trim, plan.Control,
		plan.Perimeter),
	"trade.": strs(plan.Prepare, plan.Hang, plan.Finish, plan.Coat, plan.Panels, plan.Trims),
	"rule.": {layout.RuleBearing, layout.RuleStagger, layout.RuleFourCorners, layout.RuleOpening, layout.RuleBacking, layout.RuleLayers,
		layout.RuleOpposite, layout.RuleLeastPiece, layout.RuleLeastCourse},
	"laid.":       {"across-studs", "along-studs", "across-joists", "along-joists"},
	"insulation.": strs(job.UnfacedBatt, job.KraftBatt, job.MineralWool, job.FoamPlastic),
	"opening.":    strs(job.Door, job.Window, job.Hatch, job.KeepOut),
	"box.":        {"outlet", "switch", "light", "data", "junction", "panel"},    // planner reads no others
	"sheen.":      {"flat", "matte", "eggshell", "satin", "semi-gloss", "gloss"}, // planner reads no others
	"unit.":       {"sheet", "ft", "m", "ft2", "m2", "gal", "L", "lb", "kg"},     // of the takeoff and of packs
	"level.":      strs(plan.Error, plan.Caution, plan.Note),
	"from.":       strs(plan.Buy, plan.Stock),
	"use.":        strs(plan.Keep, plan.Waste),
	"edge.":       strs(plan.Left, plan.Right, plan.Bottom, plan.Top),
	"cut.":        {"cross", "rip"},
	"task-kind.":  {"work", "wait", "inspect", "done"},
	"what-if.":    {"drying", "setting"},
	"hidden.":     {"studs", "plates", "blocking", "backing", "box", "insulation"},
	"group.":      {"sheets", "fasteners", "joints", "paint", "trim", "sundries", "labour", "tax"}, // of the takeoff and of the cost by trade
	"pack.":       append(packs("", "-of", "sized-"), "each"),
	"ask.":        packs("", "-of"),
	"column.":     {"weight-lb", "weight-kg"},
	"item.":       {"delivery", "tool-hire"},                                           // charges go by the ids of their figures
	"source.":     {"read-of", "memory-of", "practice-of", "derived-of", "entered-of"}, // a status with a title
}

func strs[S ~string](all ...S) (texts []string) {
	for _, s := range all {
		texts = append(texts, string(s))
	}
	return texts
}

// packs are the kinds of packs with an ending each, or a head that ends in a hyphen.
func packs(ends ...string) (keys []string) {
	for _, noun := range []string{"box", "pail", "pack", "can", "roll", "tube", "bag"} {
		for _, end := range ends {
			if head := strings.TrimSuffix(end, "-"); head != end {
				keys = append(keys, end+noun)
				continue
			}
			keys = append(keys, noun+end)
		}
	}
	return keys
}

func idsOf(figures []job.Figure) (ids []string) {
	for _, f := range figures {
		ids = append(ids, f.ID)
	}
	return ids
}

// inFamily tells whether a key is put together from a code.
func inFamily(key string) bool {
	for head, codes := range families {
		if code, ok := strings.CutPrefix(key, head); ok && slices.Contains(codes, code) {
			return true
		}
	}
	return false
}

func TestEveryCodeHasAPhrase(t *testing.T) {
	for _, l := range Languages {
		catalog := readCatalog(t, l)
		for head, codes := range families {
			for _, code := range codes {
				require.Contains(t, catalog, head+code, l)
			}
		}
	}
}
