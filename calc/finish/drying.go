package finish

import (
	"math"

	"seamwright/calc/job"
	"seamwright/calc/length"
)

// VapourPressure is the saturation pressure of water vapour over water in hPa, by the Magnus formula in the form of
// WMO-No. 8 (Sonntag 1990); valid from -45 °C to 60 °C.
func VapourPressure(celsius float64) float64 {
	return 6.112 * math.Exp(17.62*celsius/(243.12+celsius))
}

// Deficit is the vapour-pressure deficit of the air in hPa: what drives water out of a wet film.
func Deficit(celsius, humidity float64) float64 { return VapourPressure(celsius) * (1 - humidity) }

// Coldest is the room temperature in °C (50 °F) below which no drying time is promised: the makers ask for it from
// two days before finishing until everything is dry (read in makers' guides; the Ontario code says the same).
const Coldest = 10.0

// ColdestSetting is the same for setting-type compound: 45 °F for surface, water, mix and air (read: a maker's submittal).
const ColdestSetting = 7.2

// Hottest is the upper end of the drying table, in °C (100 °F).
const Hottest = 37.8

// The drying law. What was read goes before what is remembered: it meets the 17 h with which the band at 70 °F and 50 %
// begins on a published graph for a coat of 1/16 in (17 to 19 h), and with that the largest error is least over a handbook
// table of the drying time of compound under tape that is remembered, not seen (from memory; all 70 cells within 12 %).
const (
	DryingScale       = 23.9  // hours at 1 kPa of saturation pressure in dry air
	DryingTemperature = 1.046 // power of the saturation pressure in kPa
	DryingHumidity    = 0.890 // power of one less the relative humidity
)

// TableCoat is the thickness that the drying table is for.
const TableCoat = length.Inch / 16

// coatThick is how thick a coat of compound lies while it dries.
var coatThick = job.Figure{ID: "coat-thickness", Value: 0.0625, Unit: "in", Source: "published graph of drying times, coat of 1/16 in", Status: job.Read}

// CoatThickness is the wet thickness of a job's coats on joints.
func CoatThickness(j *job.Job) length.Length { return inches(j, coatThick) }

// SkimThickness is the wet thickness of a job's skim over the whole face.
func SkimThickness(j *job.Job) length.Length { return inches(j, skimFilm) }

// Drying is how many hours a coat of drying-type compound of a wet thickness takes in still air, for a room
// temperature in °C and a relative humidity from 0 to 1. Thickness counts in proportion: water leaves a film at the
// rate at which the air takes it up as long as the film stays wet (a model; deep fills take longer). promised is
// false, and the hours a guide only, below Coldest, above the table's hottest row and in air too damp to dry (98 %).
func Drying(celsius, humidity float64, thickness length.Length) (hours float64, promised bool) {
	const dampest = 0.98 // the table's dampest row
	promised = celsius >= Coldest-0.001 && celsius <= Hottest && humidity <= dampest
	rh := math.Min(math.Max(humidity, 0), dampest)
	kPa := VapourPressure(celsius) / 10
	hours = DryingScale / (math.Pow(kPa, DryingTemperature) * math.Pow(1-rh, DryingHumidity))
	return hours * float64(thickness) / float64(TableCoat), promised
}

// Setting is a setting-type compound: powder that hardens by itself once it is mixed, whatever the air is like.
type Setting struct {
	Nominal     float64 // minutes, by which it is called
	Least, Most float64 // minutes until it is hard
}

// Settings are the setting-type compounds by their nominal minutes, with the makers' published times (read).
func Settings() []Setting {
	return []Setting{
		{5, 8, 12}, {20, 20, 30}, {45, 30, 80}, {90, 85, 130}, {210, 180, 240},
	}
}

// SettingHours is when the next coat may go over setting-type compound of the given nominal minutes: its longest
// published time; the next longer kind where there is none of that name.
func SettingHours(minutes float64) float64 {
	all := Settings()
	for _, s := range all {
		if s.Nominal >= minutes {
			return s.Most / 60
		}
	}
	return all[len(all)-1].Most / 60
}

// Recoat scales a data sheet's recoat time, given for 77 °F (25 °C) and 50 % humidity, to the room by the ratio of
// the vapour-pressure deficits. It is a model of ours for evaporation, no published law of paints.
func Recoat(sheetHours, celsius, humidity float64) float64 {
	const sheetCelsius, sheetHumidity, dampest = 25.0, 0.5, 0.98
	return sheetHours * Deficit(sheetCelsius, sheetHumidity) / Deficit(celsius, math.Min(humidity, dampest))
}

// Times of paint on its data sheets at 77 °F and 50 %.
var (
	primerRecoat = job.Figure{ID: "primer-recoat", Value: 1, Unit: "h", Source: "primer product page", Status: job.Read}
	paintRecoat  = job.Figure{ID: "paint-recoat", Value: 4, Unit: "h", Source: "eggshell latex data sheet", Status: job.Read}
	clearRecoat  = job.Figure{ID: "clear-recoat", Value: 4, Unit: "h", Source: "as latex paint", Status: job.Practice}
)

// SheetHours is a data sheet's recoat time: of primer, of a clear finish, else of paint.
func SheetHours(j *job.Job, primer, clear bool) float64 {
	switch {
	case primer:
		return primerRecoat.Of(j)
	case clear:
		return clearRecoat.Of(j)
	}
	return paintRecoat.Of(j)
}

// ClearHours is the wait after a clear coat on wood in the job's room, by Recoat.
func ClearHours(j *job.Job) float64 {
	return Recoat(clearRecoat.Of(j), j.Site.Celsius, j.Site.Humidity)
}

// PrimerHours is the wait after a coat of primer in the job's room, by Recoat.
func PrimerHours(j *job.Job) float64 {
	return Recoat(primerRecoat.Of(j), j.Site.Celsius, j.Site.Humidity)
}

// PaintHours is the wait after a coat of paint in the job's room, by Recoat.
func PaintHours(j *job.Job) float64 {
	return Recoat(paintRecoat.Of(j), j.Site.Celsius, j.Site.Humidity)
}
