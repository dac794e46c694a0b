package finish

import (
	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/reveal"
)

// Figures of joints and compound. Lengths are inches, as the tables of the trade are.
var (
	taperDepth  = job.Figure{ID: "taper-depth", Value: 0.05, Unit: "in", Source: "ASTM C1396: 0.020 to 0.090 in; EN 520: 0.6 to 2.5 mm", Status: job.Memory}
	taperWidth  = job.Figure{ID: "taper-width", Value: 2.5, Unit: "in", Source: "EN 520: 40 to 80 mm (read); inch value from practice", Status: job.Practice}
	bedFilm     = job.Figure{ID: "bed-film", Value: 1.0 / 32, Unit: "in", Source: "makers' sheets of tape and compound", Status: job.Read}
	bedWidth    = job.Figure{ID: "bed-width", Value: 4, Unit: "in", Source: "NAVEDTRA 14044", Status: job.Read}
	tapeWidth   = job.Figure{ID: "tape-width", Value: 2.0625, Unit: "in", Source: "maker's sheet", Status: job.Memory}
	tapeThick   = job.Figure{ID: "tape-thickness", Value: 0.009, Unit: "in", Source: "maker's sheet", Status: job.Memory}
	secondFlat  = job.Figure{ID: "second-coat", Value: 10, Unit: "in", Source: "maker's guide: 7 to 10 in", Status: job.Read}
	thirdFlat   = job.Figure{ID: "third-coat", Value: 12, Unit: "in", Source: "maker's guide: 10 to 12 in knife", Status: job.Read}
	secondFilm  = job.Figure{ID: "second-film", Value: 0.010, Unit: "in", Status: job.Practice}
	thirdFilm   = job.Figure{ID: "third-film", Value: 0.006, Unit: "in", Status: job.Practice}
	buttSecond  = job.Figure{ID: "butt-second", Value: 14, Unit: "in", Source: "maker's guide", Status: job.Read}
	buttCrown   = job.Figure{ID: "butt-crown", Value: 1.0 / 16, Unit: "in", Source: "two films of 1/32 in", Status: job.Derived}
	buttLeast   = job.Figure{ID: "butt-least", Value: 18, Unit: "in", Source: "handbook as quoted by the trade press", Status: job.Read}
	buttMost    = job.Figure{ID: "butt-most", Value: 24, Unit: "in", Source: "practice: 16 to 24 in", Status: job.Memory}
	angleFirst  = job.Figure{ID: "angle-first", Value: 2, Unit: "in", Source: "half a 4 in bed", Status: job.Derived}
	angleSecond = job.Figure{ID: "angle-second", Value: 4, Unit: "in", Source: "each coat 2 in beyond the last", Status: job.Read}
	beadNose    = job.Figure{ID: "bead-nose", Value: 3.0 / 32, Unit: "in", Status: job.Practice}
	beadFirst   = job.Figure{ID: "bead-first", Value: 4, Unit: "in", Source: "handbook: at least 4 in", Status: job.Read}
	beadStep    = job.Figure{ID: "bead-step", Value: 1, Unit: "in", Source: "handbook: 5 to 6 in in all", Status: job.Read}
	dimpleWidth = job.Figure{ID: "dimple-width", Value: 0.75, Unit: "in", Status: job.Practice}
	dimpleDepth = job.Figure{ID: "dimple-depth", Value: 1.0 / 32, Unit: "in", Status: job.Memory}
	spotFirst   = job.Figure{ID: "spot-first", Value: 1.5, Unit: "in", Source: "3 to 4 in by the last coat", Status: job.Memory}
	spotFilm    = job.Figure{ID: "spot-film", Value: 0.008, Unit: "in", Status: job.Practice}
	skimFilm    = job.Figure{ID: "skim-film", Value: 0.012, Unit: "in", Status: job.Practice}
	shrinkage   = job.Figure{ID: "shrinkage", Value: 25, Unit: "%", Status: job.Practice}
	loss        = job.Figure{ID: "compound-loss", Value: 15, Unit: "%", Status: job.Practice}
	bagYield    = job.Figure{ID: "setting-yield", Value: 2.8 / 18, Unit: "gal/lb", Source: "maker's submittal: 2.8 gal from 18 lb", Status: job.Read}
	lightAngle  = job.Figure{ID: "light-angle", Value: 30, Unit: "degrees", Status: job.Practice}
	threshold   = job.Figure{ID: "contrast-seen", Value: 2, Unit: "%", Source: "Weber fraction", Status: job.Memory}
	tapeWaste   = job.Figure{ID: "tape-waste", Value: 10, Unit: "%", Source: "textbook of building estimating", Status: job.Read}
	screwLoss   = job.Figure{ID: "screw-loss", Value: 5, Unit: "%", Status: job.Practice}
	perPound    = job.Figure{ID: "screws-per-pound", Value: 350, Unit: "in/lb", Source: "counts on boxes", Status: job.Memory}
)

// SettingMinutes is the setting time of the compound, 0 for drying-type: it decides what is bought here and how long the
// sequence waits, where it is listed.
var SettingMinutes = job.Figure{ID: "setting-compound", Value: 0, Unit: "minutes", Source: "makers' data: 20, 45, 90, 210", Status: job.Read}

// Figures of paint, trim and sundries.
var (
	firstCoat    = job.Figure{ID: "first-coat-coverage", Value: 300, Unit: "ft2/gal", Source: "painters' guides: 250 to 400 ft2/gal, the lower half on new board; labels of drywall primers 300 to 400 from memory", Status: job.Read}
	laterCoat    = job.Figure{ID: "coat-coverage", Value: 400, Unit: "ft2/gal", Source: "paint data sheets: 300 to 400", Status: job.Read}
	panelCoats   = job.Figure{ID: "panel-coats", Value: 0, Unit: "coats", Source: "choice of the user", Status: job.Practice}
	clearCover   = job.Figure{ID: "clear-coverage", Value: 400, Unit: "ft2/gal", Source: "labels of water-borne finishes: 300 to 500", Status: job.Memory}
	panelStrip   = job.Figure{ID: "panel-edge-strip", Value: 1, Unit: "yes = 1", Status: job.Practice}
	casing       = job.Figure{ID: "casing", Value: 0, Unit: "in", Source: "choice of the user", Status: job.Practice}
	shims        = job.Figure{ID: "shims-per-sheet", Value: 2, Unit: "each", Status: job.Practice}
	battens      = job.Figure{ID: "panel-battens", Value: 0, Unit: "yes = 1", Source: "US Army EN5156 2-15: optional", Status: job.Read}
	floorStrip   = job.Figure{ID: "floor-strip", Value: 48, Unit: "in", Status: job.Practice}
	paperLap     = job.Figure{ID: "paper-lap", Value: 10, Unit: "%", Status: job.Practice}
	sanding      = job.Figure{ID: "sanding", Value: 100, Unit: "ft/sheet", Status: job.Practice}
	platesPerBox = job.Figure{ID: "nail-plates-per-box", Value: 1, Unit: "each", Status: job.Practice}
	boxGypsum    = job.Figure{ID: "box-set-back", Value: 0.25, Unit: "in", Source: "NEC 314.20", Status: job.Read}
	boxProud     = job.Figure{ID: "box-proud", Value: 0.125, Unit: "in", Status: job.Practice}
	trimLap      = job.Figure{ID: "trim-lap", Value: 0.5, Unit: "in", Status: job.Practice}
)

// Figures are the adjustable numbers of finishing.
var Figures = []job.Figure{
	taperDepth, taperWidth, bedFilm, bedWidth, tapeWidth, tapeThick, secondFlat, thirdFlat, secondFilm, thirdFilm, buttSecond,
	buttCrown, buttLeast, buttMost, angleFirst, angleSecond, beadNose, beadFirst, beadStep, dimpleWidth, dimpleDepth, spotFirst,
	spotFilm, skimFilm, shrinkage, loss, bagYield, lightAngle, threshold, tapeWaste, screwLoss, perPound,
	firstCoat, laterCoat, panelCoats, clearCover, panelStrip, casing, shims, battens, reveal.BoardSill, floorStrip, paperLap, sanding, platesPerBox, boxGypsum, boxProud, sealBead, sealTube, trimLap,
	coatThick, primerRecoat, paintRecoat, clearRecoat,
}

// inches is the length of a figure that is given in inches.
func inches(j *job.Job, f job.Figure) length.Length {
	return length.Length(f.Of(j) * float64(length.Inch))
}
