package policy_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"
	"seamwright/calc/policy"
	"seamwright/planner"
)

// planned reads a project with some text replaced, and plans it.
func planned(t *testing.T, file string, replace ...string) (*job.Job, *plan.Plan) {
	t.Helper()
	text, err := os.ReadFile("testdata/" + file + ".seam.yaml")
	require.NoError(t, err)
	for i := 0; i < len(replace); i += 2 {
		require.Contains(t, string(text), replace[i])
	}
	return plannedText(t, strings.NewReplacer(replace...).Replace(string(text)))
}

func plannedText(t *testing.T, text string) (*job.Job, *plan.Plan) {
	t.Helper()
	d, err := planner.Parse("test.seam.yaml", []byte(text))
	require.NoError(t, err)
	j := d.Job()
	p, err := calc.Plan(t.Context(), j, nil)
	require.NoError(t, err)
	return j, p
}

// bought are the sizes of a product that a plan buys.
func bought(p *plan.Plan, product string) map[string]int {
	n := map[string]int{}
	for _, s := range p.Sheets {
		if s.Product == product && s.Source == plan.Buy {
			n[job.SizeName(s.Size[0], s.Size[1], true)]++
		}
	}
	return n
}

func offer(t *testing.T, p *plan.Plan, product, name string) plan.Offer {
	t.Helper()
	for _, o := range p.Sizes {
		if o.Product == product && o.Name == name {
			return o
		}
	}
	t.Fatalf("no %s %s among the sizes", product, name)
	return plan.Offer{}
}

func rules(p *plan.Plan, rule string) (messages []string) {
	for _, c := range p.Checks {
		if c.Rule == rule {
			messages = append(messages, said(c.Says))
		}
	}
	return messages
}

// A stair of 34 in and a landing of 36 in let 8 ft sheets round and no 9 ft ones: (34^(2/3) + 36^(2/3))^(3/2) = 99.0 in
// (calculus: the least of a/sin t + b/cos t). The plan buys what comes up.
func TestAtticBuysWhatComesUpTheStair(t *testing.T) {
	_, p := planned(t, "attic")
	require.NotEmpty(t, bought(p, "gyp-12c"))
	for _, s := range p.Sheets {
		require.LessOrEqual(t, s.Size[0].In(), 99.0, s.ID)
	}
	require.Empty(t, rules(p, "access"), "what is bought comes in, so there is nothing to be careful of")
	o := offer(t, p, "gyp-12c", "4x10")
	require.False(t, o.Offered)
	require.Equal(t, plan.LimitWay, o.Limit)
	require.Equal(t, `at most 8' 2" goes around the corners of the way in`, said(o.Reason))
	require.Len(t, rules(p, policy.Rule), 2, "a note for each product")
}

// Where not even the shortest sheet comes in it is bought all the same, and the reason is told.
func TestWayInGivesWayWhereNothingComesIn(t *testing.T) {
	_, p := planned(t, "attic", `corridor: 36", stair: [34", 76"]`, `corridor: 34", stair: [30", 76"]`)
	require.Equal(t, []string{"4x8"}, keys(bought(p, "gyp-12")))
	o := offer(t, p, "gyp-12", "4x8")
	require.True(t, o.Offered)
	require.Equal(t, "there is no smaller one", said(o.Why))
	require.Len(t, rules(p, "access"), 1)
	require.Contains(t, rules(p, "access")[0], "bought since there is no smaller one")
}

func keys(m map[string]int) (names []string) {
	for k := range m {
		names = append(names, k)
	}
	return names
}

// One person carries 72 lb (common practice, no source): a 4x8 of 5/8 in board at 2.2 psf weighs 70.4 lb, a 4x12 of 1/2 in
// board at 1.6 psf 76.8 lb (arithmetic on catalog weights).
func TestOnePersonCarriesNoLongSheets(t *testing.T) {
	_, p := planned(t, "alone")
	for _, s := range p.Sizes {
		require.Equal(t, s.Weight < 72.1*0.45359237, s.Offered, s.Product+" "+s.Name) // a 4.5x10 of 1/2 in board is 72.0 lb
	}
	require.Equal(t, []string{"4x8"}, keys(bought(p, "gyp-16x")))
	_, lifted := planned(t, "alone", "lift: false", "lift: true")
	require.True(t, offer(t, lifted, "gyp-16x", "4x12").Offered, "105.6 lb on a device for 150 lb")
	_, own := planned(t, "alone", "lift: false", "heaviest: 60 lb, longest: 9'")
	require.False(t, offer(t, own, "gyp-12", "4x10").Offered)
	require.Equal(t, `the crew carries at most 9' 0"`, said(offer(t, own, "gyp-12", "4x10").Reason))
	require.Equal(t, "there is no smaller one", said(offer(t, own, "gyp-16x", "4x8").Why), "70.4 lb, and nothing lighter is sold")
	require.Len(t, rules(own, policy.Rule), 4, "a caution for the board that is too heavy, notes for what was left out")
}

// The yard has two lengths; a price of 0 is free and stays for sale.
func TestYardIsBinding(t *testing.T) {
	_, p := planned(t, "shop")
	for _, s := range p.Sheets {
		require.Contains(t, []string{"4x8", "4x12"}, job.SizeName(s.Size[0], s.Size[1], true))
	}
	require.Empty(t, rules(p, policy.Rule), "what the yard does not have is the user's own word")
	_, free := plannedText(t, `
seamwright: 1
rooms: [{id: r, height: 8', corners: [[0, 0], [8', 0], [8', 8'], [0, 8']]}]
defaults: {lining: [{product: gyp-12}]}
catalog: [{id: gyp-12, sizes: [{size: [8', 48"], price: 0}, {size: [12', 48"], price: 20}]}]
`)
	require.NotZero(t, bought(free, "gyp-12")["4x8"])
}

// A room 8 by 6 ft is 10 ft from corner to corner (3, 4, 5): with a way in to be kept to, no 12 ft sheet stands in it.
func TestRoomItselfLimitsSheets(t *testing.T) {
	const closet = `
seamwright: 1
site: {access: {door: [32", 80"]}}
rooms: [{id: r, height: 8', corners: [[0, 0], [8', 0], [8', 6'], [0, 6']]}]
defaults: {lining: [{product: gyp-12}]}
`
	_, p := plannedText(t, closet)
	require.True(t, offer(t, p, "gyp-12", "4x10").Offered)
	require.Equal(t, plan.LimitRoom, offer(t, p, "gyp-12", "4x12").Limit)
	_, silent := plannedText(t, strings.Replace(closet, "site: {access: {door: [32\", 80\"]}}\n", "", 1))
	require.True(t, offer(t, silent, "gyp-12", "4x12").Offered, "nothing is said of the way in")
}

// Studs at 9 ft centres: an 8 ft sheet across them has no member for its end, a 9 ft one has. The crew's limit of 8 ft
// gives way to the rule on bearing, and only as far as it must.
func TestCrewGivesWayToTheRules(t *testing.T) {
	_, p := plannedText(t, `
seamwright: 1
site: {crew: {longest: 8'}}
rooms:
  - id: r
    height: 4'
    corners: [[0, 0], [27', 0], [27', 10'], [0, 10']]
    walls:
      - {side: 1, id: south, framing: {spacing: 8', first: 8', without: [8', 16', 24'], also: [9', 18']}, lining: [{product: gyp-12, run: across}]}
`)
	o := offer(t, p, "gyp-12", "4x9")
	require.True(t, o.Offered, "%+v", p.Sizes)
	require.Equal(t, "without it r/south has no layout that keeps the rules as well", said(o.Why))
	require.False(t, offer(t, p, "gyp-12", "4x10").Offered)
	require.Len(t, rules(p, policy.Rule), 2)
}

// What the trade sells is asked of the whole job, so a limit never counts where a product is not lined with.
func TestOffersAreOfProductsInUse(t *testing.T) {
	_, p := planned(t, "shop")
	for _, o := range p.Sizes {
		require.Contains(t, []string{"gyp-12", "gyp-16x"}, o.Product)
	}
}

// A piece on hand may be longer than any sheet that can be bought; the bound counts all that it holds.
func TestStockBeyondTheYard(t *testing.T) {
	_, p := plannedText(t, `
seamwright: 1
rooms:
  - id: r
    height: 4' 1/2"
    corners: [[0, 0], [16', 0], [16', 10'], [0, 10']]
    walls: [{side: 1, id: south, lining: [{product: gyp-12}]}]
yard: {gyp-12: [4x8]}
stock: [{product: gyp-12, size: [16', 48"], edges: tapered}]
`)
	require.LessOrEqual(t, p.Summary.SheetsBound, p.Summary.SheetsBought)
	require.Zero(t, p.Summary.SheetsBought, "two 8 ft pieces come from the 16 ft one on hand")
	require.Equal(t, 16*length.Foot, p.Sheets[0].Size[0])
}

// Two layers of board across studs at 600 mm beside a window: every joint of 2700 mm sheets beside it stands at 2400 or 3000 mm,
// while the two courses of one layer and the one of the other that reach past the window need three places apart. So 3000 mm
// sheets are allowed though they don't come round the corner, and the rule on openings is kept (arithmetic).
func TestLayersTogetherAskForALongerSheet(t *testing.T) {
	j, p := planned(t, "music")
	o := offer(t, p, "gyp-12.5", "1200x3000 mm")
	require.Equal(t, plan.LimitWay, o.Limit)
	require.True(t, o.Offered)
	require.Equal(t, "without it music/front has no layout that keeps the rules as well", said(o.Why))
	require.Empty(t, rules(p, "opening"))
	_, err := calc.SeamPlaces(j, p, "music/front", 1, 2, 0)
	require.NoError(t, err, "a seam in the hand knows the same sizes")

	_, yard := planned(t, "music", "rooms:", "yard: {gyp-12.5: [1200x2400 mm, 1200x2700 mm]}\nrooms:")
	require.False(t, offer(t, yard, "gyp-12.5", "1200x3000 mm").Offered, "what the yard does not have is not bought")
	require.NotEmpty(t, rules(yard, "opening"))
}

// said is a fact in English, in feet and inches.
func said(f plan.Fact) string { return words.In(words.English, words.Units{Imperial: true}).Fact(f) }
