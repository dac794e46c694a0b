package plan

import "seamwright/calc/length"

// Fine is a small length told to 1/32 in, as thick as panels are told apart, or to a millimetre.
type Fine length.Length

// Film is the thickness of a coat, a fraction of an inch or of a millimetre.
type Film length.Length

// JointName tells a kind of joint.
func JointName(k JointKind) Fact { return Tell("joint-kind." + string(k)) }

// Box tells a box by its kind, if it has one.
func Box(kind string) Fact {
	if kind == "" {
		return Tell("thing.box")
	}
	return Tell("box." + kind)
}

// Unit tells a unit of the takeoff; things that are counted have none.
func Unit(unit string) Fact {
	if unit == "count" {
		return Fact{}
	}
	return Tell("unit." + unit)
}

// TradeName tells a trade.
func TradeName(t Trade) Fact { return Tell("trade." + string(t)) }
