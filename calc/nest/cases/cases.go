// Package cases reads cutting problems from JSON: one instance, or a family of them under "instances".
//
//	{"name": "two doors", "sheet": [2440, 1220], "kerf": 3, "rotate": true, "items": [[900, 600, 2], [400, 300, 5]]}
//
// All numbers are whole numbers of one unit. "sheets" gives several sizes instead of one, [{"size": [2440, 1220], "cost":
// 30, "max": 4}, …]. A length case has "sheet": [L, 1] and items [l, 1, n]; "stock" gives several lengths, [{"L": 3000,
// "cost": 12, "max": 4}, …]. A cost that is left out is the length, or 1 for a sheet; a max that is left out is no limit.
// Keys not named here are passed over: published sets carry citations and remarks beside their numbers.
package cases

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"seamwright/calc/nest"
)

// MaxBytes is the largest input that is read.
const MaxBytes = 16 << 20

// Case is one instance. One of Sheets and Lengths is set.
type Case struct {
	Name    string
	Sheets  *nest.Problem
	Lengths *nest.LengthProblem
	Costs   bool // the value is a cost; else every sheet counts one
	Known   []Known
}

// Known is a value that is known for an instance, as its file words it.
type Known struct {
	Value   int64  `json:"value"`
	Proven  bool   `json:"proven"`
	Variant string `json:"variant"`
}

// Family is what one file holds.
type Family struct {
	Name  string
	Cases []Case
}

type family struct {
	Family    string            `json:"family"`
	Instances []json.RawMessage `json:"instances"`
}

type instance struct {
	Name   string    `json:"name"`
	Sheet  []int64   `json:"sheet"`
	Sheets []size    `json:"sheets"`
	Stock  []stock   `json:"stock"`
	Kerf   int64     `json:"kerf"`
	Rotate bool      `json:"rotate"`
	Items  [][]int64 `json:"items"`
	Known  []Known   `json:"best_known"`
}

// size is a size of sheet.
type size struct {
	Size []int64 `json:"size"`
	Cost *int64  `json:"cost"`
	Max  *int    `json:"max"`
}

// stock is a length of stick.
type stock struct {
	L    int64  `json:"L"`
	Cost *int64 `json:"cost"`
	Max  *int   `json:"max"`
}

// Turn says which items may be turned a quarter.
type Turn string

// AsCase goes by what each instance says.
const (
	AsCase Turn = "case"
	All    Turn = "yes"
	None   Turn = "no"
)

// Read takes one instance or a family. An error names the instance and what is wrong with it.
func Read(in io.Reader, turn Turn) (*Family, error) {
	data, err := io.ReadAll(io.LimitReader(in, MaxBytes+1))
	if err != nil {
		return nil, err
	}
	switch {
	case len(data) > MaxBytes:
		return nil, fmt.Errorf("the input is larger than %d MB; split the family into smaller files", MaxBytes>>20)
	case len(bytes.TrimSpace(data)) == 0:
		return nil, errors.New("the input is empty; write one instance, or a family with \"instances\"")
	}
	var f family
	if err := json.Unmarshal(data, &f); err != nil {
		return nil, fmt.Errorf("the input is not a cutting case in JSON: %s", explain(data, err))
	}
	out := &Family{Name: f.Family}
	if f.Instances == nil {
		c, err := one(data, 0, turn)
		if err != nil {
			return nil, err
		}
		out.Name = c.Name
		out.Cases = []Case{c}
		return out, nil
	}
	for i, raw := range f.Instances {
		c, err := one(raw, i, turn)
		if err != nil {
			return nil, err
		}
		out.Cases = append(out.Cases, c)
	}
	return out, nil
}

// explain words a JSON error for people, with the line where there is one.
func explain(data []byte, err error) string {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		line := 1 + bytes.Count(data[:min(syntax.Offset, int64(len(data)))], []byte("\n"))
		return fmt.Sprintf("line %d: %v", line, err)
	case errors.As(err, &kind):
		where := kind.Field
		if where == "" {
			where = "the whole"
		}
		return fmt.Sprintf("%s is a %s where whole numbers, lists or text of the format are due", where, kind.Value)
	}
	return err.Error()
}

// one reads a single instance.
func one(raw []byte, index int, turn Turn) (Case, error) {
	var in instance
	label := fmt.Sprintf("instance %d", index+1)
	if err := json.Unmarshal(raw, &in); err != nil {
		return Case{}, fmt.Errorf("%s: %s", label, explain(raw, err))
	}
	if in.Name != "" {
		label += fmt.Sprintf(" (%s)", in.Name)
	}
	if turn != AsCase {
		in.Rotate = turn == All
	}
	c := Case{Name: in.Name, Known: in.Known, Costs: in.Sheet == nil}
	var err error
	if err = in.shape(); err == nil {
		if in.isLengths() {
			c.Lengths = in.lengths()
			err = c.Lengths.Check()
		} else {
			c.Sheets = in.sheets()
			err = c.Sheets.Check()
		}
	}
	if err != nil {
		return Case{}, fmt.Errorf("%s: %w", label, err)
	}
	return c, nil
}

// shape checks that the lists have the lengths that the format asks for.
func (in *instance) shape() error {
	given := 0
	for _, there := range []bool{in.Sheet != nil, in.Sheets != nil, in.Stock != nil} {
		if there {
			given++
		}
	}
	switch {
	case given == 0:
		return errors.New("none of \"sheet\", \"sheets\" and \"stock\" is given; one must say what is cut from")
	case given > 1:
		return errors.New("\"sheet\", \"sheets\" and \"stock\" say the same thing; give one of them")
	case in.Sheet != nil && len(in.Sheet) != 2:
		return fmt.Errorf("\"sheet\" has %d numbers, must be [W, H]", len(in.Sheet))
	case in.Sheets != nil && len(in.Sheets) == 0:
		return errors.New("\"sheets\" is empty; give at least one size")
	case in.Stock != nil && len(in.Stock) == 0:
		return errors.New("\"stock\" is empty; give at least one length")
	case len(in.Items) == 0:
		return errors.New("\"items\" is missing or empty")
	}
	for i, it := range in.Items {
		if len(it) != 3 {
			return fmt.Errorf("item %d has %d numbers, must be [w, h, n]", i+1, len(it))
		}
		if in.Stock != nil && it[1] != 1 {
			return fmt.Errorf("item %d is %d wide; what is cut from a stock of lengths is [l, 1, n]", i+1, it[1])
		}
	}
	for i, s := range in.Sheets {
		if len(s.Size) != 2 {
			return fmt.Errorf("sheet %d: \"size\" has %d numbers, must be [W, H]", i+1, len(s.Size))
		}
	}
	for i, s := range in.Stock {
		if s.L == 0 {
			return fmt.Errorf("stock %d has no length \"L\"; sheets of several sizes stand under \"sheets\"", i+1)
		}
	}
	return nil
}

// isLengths tells a length case: everything is one unit wide.
func (in *instance) isLengths() bool {
	if in.Stock != nil {
		return true
	}
	for _, it := range in.Items {
		if it[1] != 1 {
			return false
		}
	}
	return in.Sheet != nil && in.Sheet[1] == 1
}

func (in *instance) lengths() *nest.LengthProblem {
	p := &nest.LengthProblem{Kerf: in.Kerf}
	if in.Stock == nil {
		p.Sticks = []nest.Stick{{L: in.Sheet[0], Cost: 1}}
	}
	for _, s := range in.Stock {
		q := nest.Stick{L: s.L, Cost: s.L, Max: most(s.Max)}
		if s.Cost != nil {
			q.Cost = *s.Cost
		}
		p.Sticks = append(p.Sticks, q)
	}
	for _, it := range in.Items {
		p.Pieces = append(p.Pieces, nest.Piece{L: it[0], N: count(it[2])})
	}
	return p
}

func (in *instance) sheets() *nest.Problem {
	p := &nest.Problem{Kerf: in.Kerf}
	if in.Sheet != nil {
		p.Sheets = []nest.Sheet{{W: in.Sheet[0], H: in.Sheet[1], Cost: 1}}
	}
	for _, s := range in.Sheets {
		q := nest.Sheet{W: s.Size[0], H: s.Size[1], Cost: 1, Max: most(s.Max)}
		if s.Cost != nil {
			q.Cost = *s.Cost
		}
		p.Sheets = append(p.Sheets, q)
	}
	for _, it := range in.Items {
		p.Items = append(p.Items, nest.Item{W: it[0], H: it[1], N: count(it[2]), Turn: in.Rotate})
	}
	return p
}

// count brings a number of pieces into int; what is too many stays too many and is refused by the check.
func count(n int64) int { return int(max(-1, min(n, 1<<31-1))) }

// most is the number on hand as the engine takes it: left out it is 0, no limit. A written 0 is refused as -1 would be.
func most(m *int) int {
	if m == nil {
		return 0
	}
	if *m == 0 {
		return -1
	}
	return *m
}

// Best is the least value known for guillotine cutting of the variant, turned or not; 0 where the file has none.
func (c *Case) Best(turned bool) int64 {
	best := int64(0)
	for _, k := range c.Known {
		if c.Lengths == nil && !fits(k.Variant, turned) {
			continue
		}
		if best == 0 || k.Value < best {
			best = k.Value
		}
	}
	return best
}

// fits tells whether a published value is for guillotine cutting of the variant.
func fits(variant string, turned bool) bool {
	v := []byte(variant)
	if !bytes.Contains(v, []byte("guillotine")) || bytes.Contains(v, []byte("FREE")) {
		return false
	}
	return bytes.Contains(v, []byte("rotat")) == turned
}
