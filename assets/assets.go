// Package assets holds what ships inside the program: the catalog, the reference page of the project file with its
// example, the sample projects and the fonts. It imports nothing; package planner reads the YAML.
package assets

import _ "embed"

// Catalog is the shipped list of products and supplies. Its prices are placeholders.
//
//go:embed catalog.yaml
var Catalog []byte

// Format is the reference page of the project file, in Markdown.
//
//go:embed format.md
var Format string

// Example is the complete commented project that the reference page refers to.
//
//go:embed example.seam.yaml
var Example []byte

// KilnYardStudio and LaneWorkshop are the sample projects, one in feet and inches and one metric.
//
//go:embed samples/kiln-yard-studio.seam.yaml
var KilnYardStudio []byte

// LaneWorkshop is the metric sample.
//
//go:embed samples/lane-workshop.seam.yaml
var LaneWorkshop []byte
