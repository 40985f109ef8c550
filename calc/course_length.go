package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// CourseLengthInput is a width and the two units that are to be the same number.
type CourseLengthInput struct {
	// Width is what is treated by all the nozzles that are caught.
	Width unit.Length
	// ReadingUnit is one unit of the jug, such as a fluid ounce.
	ReadingUnit unit.Volume
	// RateUnit is one unit of the rate, such as a gallon per acre.
	RateUnit unit.ApplicationRate
	// Multiple is how many ReadingUnit mean one RateUnit, for a longer course
	// where the plain one would be short. Zero stands for one.
	Multiple int
	// GroundSpeed, when given, asks for the time of the course.
	GroundSpeed unit.Speed
}

// CourseLengthResult is the course to lay out.
type CourseLengthResult struct {
	CourseLength unit.Length
	Area         unit.Area // treated over the course
	Time         unit.Time // to catch for; zero without a speed
	Warnings     []finding.Warning
}

// WarnShortCourse is the warning for a course below ShortCourse where no speed tells how
// long it takes to drive.
const WarnShortCourse = "short_course"

// ShortCourse is a course that takes some 7 s at 5 mph: reading it and the watch weighs
// too much. 85 to 400 ft are common practice. Own judgement, no published source.
const ShortCourse = 50 * unit.Foot

// CourseLength returns the course over which one ReadingUnit, caught from all
// the nozzles on Width, means one RateUnit applied,
//
//	A = Multiple x ReadingUnit / RateUnit,   L = A / Width
//
// so that ounces in the jug are gallons per acre on 1/128 acre, whatever the
// width. Time is L over the ground speed: the catch may be made standing, for as
// long as the course takes to drive.
//
// All but Multiple and GroundSpeed must be given. The error is finding.Invalid, with
// codes required, not_positive, not_finite. Warnings are unusual_speed, and
// short_catch on Multiple when the time is below ShortCatch, or without a speed
// short_course when the course is below ShortCourse.
//
// Sources: course = 340.3 / width in ft, x 10 for the boomless sprayer,
// University of Georgia Special Bulletin 16, 2002,
// https://www.bugwood.org/pestcontrol/appendix.html ; 43,560 / width / 128,
// Mississippi State University Extension,
// http://extension.msstate.edu/content/can-you-tell-me-about-sprayer-calibration ;
// pints on 5445 ft2, University of Kentucky ENTFACT-805,
// https://entomology.mgcafe.uky.edu/ef805
func CourseLength(in CourseLengthInput) (CourseLengthResult, error) {
	if err := in.check(); err != nil {
		return CourseLengthResult{}, err
	}
	area := float64(in.ReadingUnit) * float64(max(in.Multiple, 1)) / float64(in.RateUnit)
	r := CourseLengthResult{
		Area:         unit.Area(area),
		CourseLength: unit.Length(area / float64(in.Width)),
	}
	if in.GroundSpeed == 0 {
		if !finding.AtMost(1, float64(r.CourseLength/ShortCourse)) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("multiple"), Code: WarnShortCourse})
		}
		return r, nil
	}
	r.Time = unit.Time(float64(r.CourseLength) / float64(in.GroundSpeed))
	if unusualSpeed(in.GroundSpeed) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("groundSpeed"), Code: WarnUnusualSpeed})
	}
	if (Catch{Time: r.Time}).short() {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("multiple"), Code: WarnShortCatch})
	}
	return r, nil
}

func (in CourseLengthInput) check() error {
	var v finding.Invalid
	v.Positive(float64(in.Width), finding.Member("width"))
	v.Positive(float64(in.ReadingUnit), finding.Member("readingUnit"))
	v.Positive(float64(in.RateUnit), finding.Member("rateUnit"))
	if in.Multiple < 0 {
		v.Add(finding.Member("multiple"), finding.CodeNotPositive)
	}
	v.Optional(float64(in.GroundSpeed), finding.Member("groundSpeed"))
	return v.Err()
}
