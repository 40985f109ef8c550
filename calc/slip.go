package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Slip is how an entry may have come to be wrong, and what would make it right.
type Slip struct {
	Kind  SlipKind
	Meant unit.ID // with SlipUnit: the unit that the number may be of
	// Factor times the entry is what may have been meant; zero when no slip explains it.
	Factor float64
}

// SlipKind is a kind of slip. Empty when none that is known explains the entry.
type SlipKind string

const (
	SlipDigit     SlipKind = "digit"      // one lost, one doubled, or the decimal point
	SlipUnit      SlipKind = "unit"       // the number is of another unit
	SlipConverted SlipKind = "converted"  // out of a wrong unit, before it was sent
	SlipClock     SlipKind = "clock"      // 1:08 written 1.08
	SlipOneNozzle SlipKind = "one_nozzle" // the amount of one nozzle, written down for its drop
	SlipDrop      SlipKind = "drop"       // the amount of a drop, its number of nozzles left out
	SlipAllBeds   SlipKind = "all_beds"   // of all beds of a pass, for one
	SlipBasis     SlipKind = "basis"      // treated area for field area, or the other way
)

// Words lists every kind.
func (SlipKind) Words() []string {
	return finding.WordsOf([]SlipKind{SlipDigit, SlipUnit, SlipConverted, SlipClock, SlipOneNozzle, SlipDrop, SlipAllBeds, SlipBasis})
}

const (
	// farOff is how many times larger or smaller than what is like it an entry is when it is
	// asked about; explained is how near a slip has to bring it. Both own judgement: no wear,
	// dirt or slope makes the one, and crews' errors lie within the other.
	farOff    = 2.5
	explained = 15 * unit.Percent
)

// An entryKind is what an entry is of.
type entryKind uint8

const (
	ofPressure entryKind = iota
	ofCourse
	ofWidth
	ofTime
	ofVolume
	ofRate
	ofFlow
	ofCount
)

// mixedUp are the units of each kind that are taken for each other.
var mixedUp = [...][]unit.ID{
	ofPressure: {unit.IDPsi, unit.IDBar, unit.IDKPa},
	ofCourse:   {unit.IDFt, unit.IDM, unit.IDYd},
	ofWidth:    {unit.IDIn, unit.IDFt, unit.IDCm, unit.IDM},
	ofTime:     {unit.IDS, unit.IDMin},
	ofVolume:   {unit.IDFlOzUs, unit.IDML, unit.IDPtUs, unit.IDQtUs, unit.IDGalUs, unit.IDL},
	ofRate:     {unit.IDGalUsAcre, unit.IDLHa},
	ofFlow:     {unit.IDGalUsMin, unit.IDLMin},
	ofCount:    {},
}

// machinery is what lies within the bounds of any sprayer: what lies outside is asked about.
// Common practice, no published source; the widest that were met, and some more.
var machinery = struct {
	speed, pressure, width, rate reach
}{
	speed:    reach{0.5 * float64(unit.MilePerHour), 25 * float64(unit.MilePerHour)},
	pressure: reach{5 * float64(unit.PoundPerSquareInch), 600 * float64(unit.PoundPerSquareInch)},
	width:    reach{2 * float64(unit.Inch), 80 * float64(unit.Inch)}, // of a nozzle, several to a drop
	rate:     reach{0.5 * float64(unit.USGallonPerAcre), 1500 * float64(unit.USGallonPerAcre)},
}

// usual is what most sprayers have: of two entries that explain the same figures the one that
// is not usual is doubted first. Own judgement.
var usual = struct{ speed, pressure, width, flow, rate reach }{
	speed:    reach{1.5 * float64(unit.MilePerHour), 12 * float64(unit.MilePerHour)},
	pressure: reach{10 * float64(unit.PoundPerSquareInch), 200 * float64(unit.PoundPerSquareInch)},
	width:    reach{5 * float64(unit.Inch), 45 * float64(unit.Inch)},
	flow:     reach{0.03 * float64(unit.USGallonPerMinute), 2.5 * float64(unit.USGallonPerMinute)},
	rate:     reach{4 * float64(unit.USGallonPerAcre), 300 * float64(unit.USGallonPerAcre)},
}

// A reach is a range of what is plain number, in SI.
type reach struct{ low, high float64 }

func (s reach) holds(x float64) bool {
	return finding.AtMost(x/s.high, 1) && finding.AtMost(s.low/x, 1)
}

// excludes tells that a value, where it is known, lies outside.
func (s reach) excludes(x float64) bool { return x != 0 && !s.holds(x) }

// slips calls yield with each slip of a kind of entry that was typed in a unit; None stands
// for any unit.
func slips(of entryKind, typed unit.ID, yield func(Slip)) {
	yield(Slip{Kind: SlipDigit, Factor: 10})
	yield(Slip{Kind: SlipDigit, Factor: 0.1})
	for _, from := range mixedUp[of] {
		for _, meant := range mixedUp[of] {
			switch by := meant.Factor() / from.Factor(); {
			case meant == from:
			case from == typed || typed == unit.None:
				yield(Slip{Kind: SlipUnit, Meant: meant, Factor: by})
			default: // by whoever turned it into the unit that it is in
				yield(Slip{Kind: SlipConverted, Meant: meant, Factor: by})
			}
		}
	}
}

// likeliestSlip is the slip that brings an entry nearest to want times itself, when it comes
// within explained; the zero Slip when none does.
func likeliestSlip(of entryKind, typed unit.ID, want float64) (s Slip) {
	best := math.Log1p(float64(explained))
	slips(of, typed, func(x Slip) {
		if off := math.Abs(math.Log(x.Factor / want)); off <= best {
			s, best = x, off
		}
	})
	return s
}

// clockSlip is the time t, in seconds, read as minutes and seconds: 1.08 as 1:08.
func clockSlip(t unit.Time) Slip {
	minutes, rest := math.Modf(float64(t))
	seconds := math.Round(100 * rest)
	if seconds < 1 || seconds > 59 || minutes == 0 {
		return Slip{}
	}
	return Slip{Kind: SlipClock, Factor: (60*minutes + seconds) / float64(t)}
}

// apart tells that two values that should be like each other are farOff.
func apart(a, b float64) bool { return apartBy(a, b, farOff) }

// apartBy tells that one of two values, both above zero, is so many times the other.
func apartBy(a, b, times float64) bool { return a > 0 && b > 0 && (a >= times*b || b >= times*a) }

// explains tells that x, which should be 1, comes within explained of it.
func explains(x float64) bool { return math.Abs(math.Log(x)) <= math.Log1p(float64(explained)) }
