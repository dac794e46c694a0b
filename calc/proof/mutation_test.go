package proof

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A wall of 10 ft by 96-1/2 in, planned by hand: two courses, two whole sheets and two pieces of 24 in from a third.
const handProject = `seamwright: 1
name: By hand
site: {tax: 10 %}
rooms:
  - id: r
    height: 96 1/2"
    corners: [[0, 0], [10', 0], [10', 8'], [0, 8']]
    walls:
      - {side: 1, id: south, lining: [{product: gyp-12, run: across}], boxes: [{at: 20", up: 16", width: 2", height: 4"}]}
      - {side: 2, id: east}
      - {side: 3, id: north}
      - {side: 4, id: west}
defaults: {framing: {spacing: 24", member: 1 1/2"}, lining: [{product: open}]}
stock:
  - {product: gyp-12, size: [50", 48"], edges: tapered, count: 1}
catalog:
  - {id: gyp-12, edges: tapered, sizes: [{size: [8', 48"], price: 15.00}]}
`

// handPlan is its plan; $ stands for names that every wall repeats.
func handPlan() string {
	rect := func(x, y, w, h float64) string {
		r, u := math.Round((x+w)*1e4)/1e4, math.Round((y+h)*1e4)/1e4 // the sums, without what binary floats leave
		return fmt.Sprintf("[[%v,%v],[%v,%v],[%v,%v],[%v,%v]]", x, y, r, y, r, u, x, u)
	}
	bare := func(id string, wide float64, at string) string {
		return fmt.Sprintf(`{"id":"r/%s","kind":"wall","room":"r","outline":%s,"holes":[],"openings":[],"boxes":[],"hang_order":2,"members":{"axis":"x","at":[%s],"width":38.1},"zones":[]}`,
			id, rect(0, 0, wide, 2451.1), at)
	}
	short := "19.05,609.6,1219.2,1828.8,2419.35"
	panel := func(id, sheet, edges string, course int, x, y, w float64, holes string) string {
		return fmt.Sprintf(`{"id":"%s","outline":%s,"holes":[%s],"course":%d,"sheet":"%s","edges":[%s]}`, id, rect(x, y, w, 1219.2), holes, course, sheet, edges)
	}
	joint := func(kind string, x0, y0, x1, y1 float64) string {
		return fmt.Sprintf(`{"kind":"%s","from":[%v,%v],"to":[%v,%v],"panels":[],"support":"member"}`, kind, x0, y0, x1, y1)
	}
	whole := `"tapered","end","tapered","end"`
	outlet := rect(482.6, 355.6, 50.8, 101.6)
	south := `{"id":"r/south","kind":"wall","room":"r","outline":` + rect(0, 0, 3048, 2451.1) + `,"holes":[],"openings":[],"boxes":[` + outlet +
		`],"hang_order":1,"members":{"axis":"x","at":[19.05,609.6,1219.2,1828.8,2438.4,3028.95],"width":38.1},"zones":[{"zone":1,"layer":1,"product":"gyp-12","run":"across","pattern":"staggered","outline":` +
		rect(0, 0, 3048, 2451.1) + `,"panels":[` + strings.Join([]string{
		panel("P1", "S1", whole, 1, 0, 12.7, 2438.4, outlet),
		panel("P2", "S3", `"tapered","end","tapered","cut"`, 1, 2438.4, 12.7, 609.6, ""),
		panel("P3", "S3", `"tapered","cut","tapered","cut"`, 2, 0, 1231.9, 609.6, ""),
		panel("P4", "S2", whole, 2, 609.6, 1231.9, 2438.4, ""),
	}, ",") + `],"joints":[` + strings.Join([]string{
		joint("tapered", 0, 1231.9, 609.6, 1231.9), joint("tapered", 609.6, 1231.9, 2438.4, 1231.9), joint("tapered", 2438.4, 1231.9, 3048, 1231.9),
		joint("butt", 2438.4, 12.7, 2438.4, 1231.9), joint("butt", 609.6, 1231.9, 609.6, 2451.1),
	}, ",") + `],"fasteners":{"count":1,"points":[[19.05,100]]}}]}`
	sheet := func(id, parts, offcuts, cuts string) string {
		return fmt.Sprintf(`{"id":"%s","product":"gyp-12","size":[2438.4,1219.2],"kerf":0,"source":"buy","price":15,"parts":[%s],"offcuts":[%s],"cuts":[%s]}`, id, parts, offcuts, cuts)
	}
	part := func(id string, x, w float64) string {
		return fmt.Sprintf(`{"panel":"%s","rect":[%v,0,%v,1219.2],"turned":false}`, id, x, w)
	}
	cut := func(n int, x float64) string {
		return fmt.Sprintf(`{"order":%d,"kind":"cross","from":[%v,0],"to":[%v,1219.2]}`, n, x, x)
	}
	return `{"format":"seamwright-plan","version":1,"surfaces":[` + strings.Join([]string{south, bare("east", 2438.4, short),
		bare("north", 3048, "19.05,609.6,1219.2,1828.8,2438.4,3028.95"), bare("west", 2438.4, short)}, ",") + `],"sheets":[` + strings.Join([]string{
		sheet("S1", part("P1", 0, 2438.4), "", ""), sheet("S2", part("P4", 0, 2438.4), "", ""),
		sheet("S3", part("P2", 0, 609.6)+","+part("P3", 609.6, 609.6), "[1219.2,0,1219.2,1219.2]", cut(1, 609.6)+","+cut(2, 1219.2)),
	}, ",") + `],"summary":{"sheets_bought":3,"sheets_bound":3,"stock_used":0,"waste":0.1673,"butt_joint":2438.4,"tapered_joint":3048,"mixed_joint":0,"screws":1,"hours":3,"weight_kg":69.6},` +
		`"takeoff":[{"item":"gyp-12 4x8","supply":"gyp-12","group":"sheets","unit":"sheet","basis":"b","source":"s (read)","need":2.5,"holds":1,"used":0,"still_buy":3,"still_pay":45,"buy":3,"price":15,"cost":45},` +
		`{"item":"base trim 8 ft","supply":"base-trim","group":"trim","unit":"ft","basis":"b","source":"s (read)","need":6,"holds":8,"used":0,"still_buy":1,"still_pay":0,"buy":1,"price":0,"cost":0}],` +
		`"sticks":[{"supply":"base-trim","length":2438.4,"pieces":[1828.8]}],` +
		`"cost":{"material":45,"labour":0,"tax":4.5,"by_surface":[{"sheets":3,"cost":49.5,"hours":3}],"by_room":[{"cost":49.5}],"by_trade":[{"cost":45},{"cost":4.5}],"total":49.5},` +
		`"progress":{"left_to_buy":45},"handling":{"delivery_kg":69.6,"sheets":[{"count":3,"kg_together":69.6}]},"schedule":[` + strings.Join([]string{
		step("look-r", "work", "", "01T08:00", "01T09:00", ""), step("mark-r", "work", "", "01T09:00", "01T10:00", `"look-r"`),
		step("hang-r-south", "work", "r/south", "01T15:00", "02T08:30", `"mark-r"`), step("dry-1-r", "wait", "", "02T08:30", "03T03:00", `"hang-r-south"`)}, ",") + `],"checks":[]}`
}

// step is a task in March 2027, whose first day is a Monday.
func step(id, kind, surface, start, finish, after string) string {
	return fmt.Sprintf(`{"id":"%s","kind":"%s","room":"r","surface":"%s","start":"2027-03-%s","finish":"2027-03-%s","basis":"b","source":"s (read)","after":[%s]}`, id, kind, surface, start, finish, after)
}

func TestAPlanByHandHolds(t *testing.T) {
	require.Empty(t, faults([]byte(handProject), []byte(handPlan())))
}

// Every check can fail: each row spoils the plan, or asks for something else, in one way and names the check that
// must notice; text of plan or file is replaced in pairs.
func TestEveryCheckCanFail(t *testing.T) {
	const p2 = `[[2438.4,12.7],[3048,12.7],[3048,1231.9],[2438.4,1231.9]]`
	plan := func(pairs ...string) func(string, string) (string, string) {
		return func(y, j string) (string, string) {
			for i := 0; i < len(pairs); i += 2 {
				require.Contains(t, j, pairs[i])
				j = strings.ReplaceAll(j, pairs[i], pairs[i+1])
			}
			return y, j
		}
	}
	file := func(pairs ...string) func(string, string) (string, string) {
		return func(y, j string) (string, string) {
			for i := 0; i < len(pairs); i += 2 {
				require.Contains(t, y, pairs[i])
				y = strings.ReplaceAll(y, pairs[i], pairs[i+1])
			}
			return y, j
		}
	}
	for _, c := range []struct {
		what, check string
		spoil       func(string, string) (string, string)
	}{
		{"a panel is missing a strip", "cover", plan(p2, `[[2438.4,12.7],[3000,12.7],[3000,1231.9],[2438.4,1231.9]]`)},
		{"a box is not cut", "hole", plan(`"holes":[[[482.6`, `"holes":[],"was":[[[482.6`)},
		{"cut out where nothing stands", "cover", plan(`"holes":[[[482.6,355.6]`, `"holes":[[[282.6,355.6]`)},
		{"panels overlap", "overlap", plan(p2, `[[2430,12.7],[3048,12.7],[3048,1231.9],[2430,1231.9]]`)},
		{"a panel leaves the wall", "outside", plan(p2, `[[2438.4,12.7],[3058,12.7],[3058,1231.9],[2438.4,1231.9]]`)},
		{"an opening is boarded over", "hole", func(y, j string) (string, string) {
			y = strings.Replace(y, `boxes: [{`, `openings: [{id: w, kind: window, at: 40", width: 30", height: 30", sill: 20"}], boxes: [{`, 1)
			return y, strings.Replace(j, `"holes":[],"openings":[]`, `"holes":[[[1016,508],[1778,508],[1778,1270],[1016,1270]]],"openings":[{"id":"w","kind":"window","outline":[[1016,508],[1778,508],[1778,1270],[1016,1270]]}]`, 1)
		}},
		{"an opening stands elsewhere in the file", "opening", file(`boxes: [{`, `openings: [{id: w, kind: window, at: 40", width: 30", height: 30", sill: 20"}], boxes: [{`)},
		{"the wall is longer in the file", "wall", file(`[[0, 0], [10', 0], [10', 8'], [0, 8']]`, `[[0, 0], [11', 0], [11', 8'], [0, 8']]`)},
		{"the room is higher in the file", "wall", file(`height: 96 1/2"`, `height: 98"`)},
		{"another product in the file", "zone", file(`product: gyp-12, run`, `product: gyp-16x, run`)},
		{"another direction in the file", "zone", file(`run: across`, `run: along`)},
		{"a second layer in the file", "zone", file(`product: gyp-12, run`, `product: [gyp-12, gyp-12], run`)},
		{"a wall is missing", "surfaces", plan(`"id":"r/north"`, `"id":"r/attic"`)},
		{"a stud is missing", "members", plan(`1828.8,2438.4,3028.95`, `2438.4,3028.95`)},
		{"the ceiling's lining is ignored", "height", file(`    walls:`, `    ceiling: {lining: [{product: gyp-16x}]}`+"\n    walls:")},
		{"the neighbour's lining is ignored", "setback", func(y, j string) (string, string) {
			y = strings.Replace(y, `id: east}`, `id: east, lining: [{product: gyp-12}]}`, 1)
			return y, strings.Replace(j, `"hang_order":2`, `"hang_order":0`, 1)
		}},
		{"a panel from two sheets", "part", plan(`"panel":"P3"`, `"panel":"P2"`)},
		{"a panel from no sheet", "part", plan(`{"panel":"P2","rect":[0,0,609.6,1219.2],"turned":false},`, ``)},
		{"a panel larger than its cut", "size", plan(`"rect":[0,0,609.6,1219.2]`, `"rect":[0,0,600,1219.2]`)},
		{"a panel much smaller than its cut", "size", plan(p2, `[[2438.4,12.7],[3028,12.7],[3028,1231.9],[2438.4,1231.9]]`)},
		{"a factory end called cut", "edges", plan(`"tapered","end","tapered","cut"`, `"tapered","cut","tapered","cut"`)},
		{"a cut edge called tapered", "edges", plan(`"tapered","cut","tapered","cut"`, `"tapered","tapered","tapered","cut"`)},
		{"an edge trimmed square in the file", "edges", file(`edges: tapered, sizes`, `edges: square, sizes`)},
		{"a turned part", "size", plan(`"rect":[609.6,0,609.6,1219.2],"turned":false`, `"rect":[609.6,0,609.6,1219.2],"turned":true`)},
		{"a cut that stops short", "cuts", plan(`"from":[609.6,0],"to":[609.6,1219.2]`, `"from":[609.6,0],"to":[609.6,1000]`)},
		{"a cut that is missing", "cuts", plan(`{"order":2,"kind":"cross","from":[1219.2,0],"to":[1219.2,1219.2]}`, ``, `1219.2]},]`, `1219.2]}]`)},
		{"a blade that takes nothing", "sheet", file(`edges: tapered, sizes`, `edges: tapered, kerf: 3 mm, sizes`)},
		{"a blade without room", "cuts", plan(`"kerf":0`, `"kerf":3`)},
		{"cuts out of order", "cuts", plan(`"order":2`, `"order":3`)},
		{"an offcut that is not there", "cuts", plan(`[1219.2,0,1219.2,1219.2]`, `[1219.2,0,1219.2,1000]`)},
		{"a size not for sale", "sheet", file(`size: [8', 48"]`, `size: [9', 48"]`)},
		{"a stock piece that is not there", "stock", plan(`"source":"buy"`, `"source":"stock"`)},
		{"upright sheets on no stud", "bearing", plan(`"at":[19.05,609.6,1219.2,1828.8,2438.4,3028.95],"width":38.1},"zones":[{`, `"at":[19.05,1219.2,1828.8,2438.4,3028.95],"width":38.1},"cripples":[609.6],"zones":[{`,
			`"run":"across"`, `"run":"along"`)},
		{"a joint on no stud", "bearing", plan(`"at":[19.05,609.6,1219.2,1828.8,2438.4,3028.95],"width":38.1},"zones":[{`, `"at":[19.05,1219.2,1828.8,2438.4,3028.95],"width":38.1},"zones":[{`)},
		{"end joints too near", "stagger", file(`member: 1 1/2"}`, `member: 1 1/2"}}`+"\n"+`rules: {stagger: 80"}`+"\n#", `spacing: 24"`, `spacing: 80"`)},
		{"a joint beside an opening", "opening rule", func(y, j string) (string, string) {
			y = strings.Replace(y, `boxes: [{`, `openings: [{id: w, kind: window, at: 98", width: 10", height: 10", sill: 20"}], boxes: [{`, 1)
			return y, strings.Replace(j, `"holes":[],"openings":[]`, `"holes":[[[2489.2,508],[2743.2,508],[2743.2,762],[2489.2,762]]],"openings":[{"id":"w","kind":"window","outline":[[2489.2,508],[2743.2,508],[2743.2,762],[2489.2,762]]}]`, 1)
		}},
		{"a joint over the backing's seam", "backing", file(`boxes: [{`, `backing: {product: osb-11, seams: [[8', 0, 8', 4']]}, boxes: [{`)},
		{"a short piece", "least piece", file(`spacing: 24"`, `spacing: 24"`, `stock:`, "rules: {least_piece: 30\"}\nstock:")},
		{"no gap at the floor", "floor gap", file(`{side: 1, id: south,`, `{side: 1, id: south, base: 12 mm,`)},
		{"a joint of another kind", "joint", plan(`"kind":"butt","from":[2438.4`, `"kind":"tapered","from":[2438.4`)},
		{"too wide a gap", "gap", plan(p2, `[[2443.4,12.7],[3048,12.7],[3048,1231.9],[2443.4,1231.9]]`)},
		{"a sheet too few in the summary", "count", plan(`"sheets_bought":3`, `"sheets_bought":2`)},
		{"a bound above the value", "bound", plan(`"sheets_bound":3`, `"sheets_bound":4`)},
		{"waste talked down", "waste", plan(`0.1673`, `0.15`)},
		{"joints not added up", "joints", plan(`"tapered_joint":3048`, `"tapered_joint":3000`)},
		{"screws not added up", "count", plan(`"screws":1`, `"screws":2`)},
		{"a row that does not multiply", "money", plan(`"cost":45}`, `"cost":40}`)},
		{"fewer sheets in the takeoff", "takeoff", plan(`"buy":3,"price":15,"cost":45`, `"buy":2,"price":22.5,"cost":45`)},
		{"the wrong tax", "money", plan(`"tax":4.5`, `"tax":4`)},
		{"the wrong total", "money", plan(`"total":49.5`, `"total":49`)},
		{"another price in the file", "money", file(`price: 15.00`, `price: 16.00`)},
		{"a row that is not explained", "explain", plan(`"unit":"ft","basis":"b"`, `"unit":"ft","basis":""`)},
		{"a source without its status", "explain", plan(`"need":6,`, `"need":6,`, `"source":"s (read)","need":6`, `"source":"s","need":6`)},
		{"a stick that is not bought", "sticks", plan(`"pieces":[1828.8]}`, `"pieces":[1828.8]},{"supply":"base-trim","length":2438.4,"pieces":[1]}`)},
		{"a stick of another length", "sticks", plan(`"length":2438.4,"pieces"`, `"length":2000,"pieces"`)},
		{"pieces that are not the need", "sticks", plan(`"pieces":[1828.8]`, `"pieces":[1800]`)},
		{"pieces longer than their stick", "sticks", plan(`"pieces":[1828.8]`, `"pieces":[1828.8,700]`)},
		{"a pack too few", "takeoff", plan(`"need":6,`, `"need":9,`)},
		{"more digits than anybody measures", "takeoff", plan(`"need":6,`, `"need":6.00001234,`)},
		{"sheets of another price", "takeoff", plan(`"buy":3,"price":15,"cost":45`, `"buy":3,"price":15.01,"cost":45.03`)},
		{"surfaces a cent short", "shares", plan(`"sheets":3,"cost":49.5`, `"sheets":3,"cost":49.49`)},
		{"a trade left out", "shares", plan(`,{"cost":4.5}`, ``)},
		{"a surface without its sheets", "shares", plan(`"sheets":3,"cost":49.5`, `"sheets":2,"cost":49.5`)},
		{"hours given away twice", "shares", plan(`"cost":49.5,"hours":3`, `"cost":49.5,"hours":4`)},
		{"a sheet that nobody carries", "handling", plan(`"count":3`, `"count":2`)},
		{"a delivery too light", "handling", plan(`"delivery_kg":69.6`, `"delivery_kg":50`)},
		{"something bought before the start", "progress", plan(`"still_buy":3`, `"still_buy":2`)},
		{"a task too early", "sequence", plan(`01T09:00","finish":"2027-03-01T10:00`, `01T08:30","finish":"2027-03-01T10:00`)},
		{"work on a Saturday", "sequence", plan(`01T15:00","finish":"2027-03-02T08:30`, `06T09:00","finish":"2027-03-06T10:00`, `02T08:30","finish":"2027-03-03T03:00`, `06T10:00","finish":"2027-03-07T03:00`)},
		{"work at night", "sequence", plan(`01T15:00","finish":"2027-03-02T08:30`, `01T15:00","finish":"2027-03-01T20:30`)},
		{"two tasks at once", "sequence", plan(`"start":"2027-03-01T09:00","finish":"2027-03-01T10:00","basis":"b","source":"s (read)","after":["look-r"]`, `"start":"2027-03-01T08:30","finish":"2027-03-01T10:00","basis":"b","source":"s (read)","after":[]`)},
		{"a strip from no sheet", "return", plan(`"checks":[]`, `"checks":[],"returns":[{"id":"P-w-head","surface":"r/south","opening":"w","side":"head","product":"gyp-12","sheet":"S3","size":[100,50]}]`)},
		{"an opening without its strips", "return", file(`boxes: [{`, `openings: [{id: w, kind: window, at: 40", width: 30", height: 30", sill: 20", reveal: 4", return: board}], boxes: [{`)},
		{"a panel twice", "panel", plan(`"id":"P4"`, `"id":"P3"`)},
		{"a length with an exponent", "read", plan(`"screws":1`, `"screws":1`, `609.6,0,`, `6.096e2,0,`)},
		{"a hatch elsewhere", "opening", func(y, j string) (string, string) {
			y = strings.Replace(y, `    walls:`, `    ceiling: {lining: [{product: open}], openings: [{id: hatch, at: [24", 24"], size: [20", 16"]}]}`+"\n    walls:", 1)
			hatch := `[[609.6,609.6],[1117.6,609.6],[1117.6,1000],[609.6,1000]]`
			return y, strings.Replace(j, `],"sheets"`, `,{"id":"r/ceiling","kind":"ceiling","room":"r","outline":[[0,0],[3048,0],[3048,2438.4],[0,2438.4]],"holes":[`+hatch+
				`],"openings":[{"id":"hatch","kind":"hatch","outline":`+hatch+`}],"boxes":[],"hang_order":0,"members":{"axis":"x","at":[],"width":38.1},"zones":[]}],"sheets"`, 1)
		}},
		{"a hole through the edge", "panel", plan(`"holes":[[[482.6,355.6]`, `"holes":[[[-2,355.6]`)},
		{"a list that is missing", "read", plan(`"checks":[]`, `"checks":null`)},
		{"the wrong format", "format", plan(`"version":1`, `"version":2`)},
		{"seams of two layers on one line", "layers", func(y, j string) (string, string) {
			y = strings.Replace(y, `product: gyp-12, run`, `product: [gyp-12, gyp-12], run`, 1)
			a, b := strings.Index(j, `{"zone":1`), strings.Index(j, `]},{"id":"r/east"`)
			z := j[a:b]
			second := strings.NewReplacer(`"layer":1`, `"layer":2`, `"P1"`, `"Q1"`, `"P2"`, `"Q2"`, `"P3"`, `"Q3"`, `"P4"`, `"Q4"`).Replace(z)
			return y, j[:b] + "," + second + j[b:]
		}},
	} {
		t.Run(c.what, func(t *testing.T) {
			y, j := c.spoil(handProject, handPlan())
			found := faults([]byte(y), []byte(j))
			for _, f := range found {
				if strings.HasPrefix(f, c.check+": ") {
					return
				}
			}
			require.Fail(t, "not noticed", "%s: found only %q", c.check, found)
		})
	}
}
