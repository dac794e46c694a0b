package planner

import "seamwright/assets"

// Sample is the project that the program starts on: a copy that has no file yet.
func Sample() *Document {
	d, err := Parse("sample", assets.KilnYardStudio)
	if err != nil { // a test loads every shipped project
		panic("planner: the shipped sample does not read: " + err.Error())
	}
	return d
}
