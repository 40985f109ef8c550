// Package certainty is how well results are known: what instruments and scatter make of
// them (JCGM 100, the GUM), how surely a verdict then holds (JCGM 106), and what a sample
// of catches tells of the whole boom. It knows no formulas of spraying: what a result
// follows, and how much, it is told.
package certainty

import "math"

// A Source is where a part of an uncertainty comes from.
type Source uint8

// The sources. Those of instruments come in pairs, in the order of InstrumentKind:
// the scale, one error for all that the instrument measured, and the reading, a new
// error each time.
const (
	SourceStopwatchScale Source = iota
	SourceStopwatchReading
	SourceTapeScale
	SourceTapeReading
	SourceJugScale
	SourceJugReading
	SourceGaugeScale
	SourceGaugeReading
	SourceRuns           // what differs from run to run, with the readings of each
	SourceCatches        // what differs from catch to catch, with the readings of each
	SourceNozzleFlowRate // as stated with the figure, and so on
	SourceGroundSpeed
	SourceSprayedWidth
	SourceApplicationRate
	SourceVolumeUsed
	SourceArea
	SourceExpectedRate
	Sources // how many there are
)

// scaleOf and readingOf are the sources of a kind of instrument.
func scaleOf(k InstrumentKind) Source   { return Source(2 * k) }
func readingOf(k InstrumentKind) Source { return Source(2*k + 1) }

// A Component is what one source adds: a standard uncertainty as a share, and its
// degrees of freedom, of which 0 stands for any number of them.
type Component struct{ Standard, DegreesOfFreedom float64 }

// A Budget lists what each source adds; the zero Component adds nothing. The sources
// are independent of each other.
type Budget [Sources]Component

// An Uncertainty is that of one result, by the law of propagation of uncertainty to
// first order (GUM 5.1.2).
type Uncertainty struct {
	// Standard is the combined standard uncertainty, in the SI unit of the result.
	Standard float64
	// CoverageFactor times Standard covers 95 % of Error (GUM 6.2.1).
	CoverageFactor float64
	// DegreesOfFreedom are the effective ones of Standard; 0 when there is no end to them.
	DegreesOfFreedom float64
	// Budget is what Standard is made of, as shares of Reference: the result itself,
	// or what a deviation is a share of.
	Budget    Budget
	Reference float64
	// Error is how the error is distributed, as a share of Reference.
	Error  Distribution
	widest Widest
	// Parts are what the instruments and the scatter add, when that was asked for.
	Parts *Parts
}

// Expanded is the uncertainty of the interval that covers 95 %.
func (u *Uncertainty) Expanded() float64 { return u.CoverageFactor * u.Standard }

const (
	// normalCoverage is the 0.975 quantile of the normal distribution.
	normalCoverage = 1.959963984540054
	// endlessFreedom is from where Student's t is the normal distribution to six digits.
	endlessFreedom = 1e6
)

// Combine adds up a budget (GUM 5.1.2), with effective degrees of freedom by Welch and
// Satterthwaite, nu = u^4 / sum of u_i^4 / nu_i (GUM G.4.1), and the coverage factor for 95 %
// from the distribution of the error. widest is zero where nothing is rectangular.
func (b *Budget) Combine(reference float64, widest Widest) Uncertainty {
	u := Uncertainty{Budget: *b}
	u.combine(reference, widest)
	return u
}

// combine is Combine of the budget that u has.
func (u *Uncertainty) combine(reference float64, widest Widest) {
	u.Reference, u.CoverageFactor, u.widest = math.Abs(reference), normalCoverage, widest
	var variance, fourth float64
	for i := range u.Budget {
		c := &u.Budget[i]
		v := c.Standard * c.Standard
		variance += v
		if c.DegreesOfFreedom != 0 {
			fourth += v * v / c.DegreesOfFreedom
		}
	}
	if variance == 0 {
		return
	}
	share := math.Sqrt(variance)
	u.Standard = share * u.Reference
	if nu := variance * variance / fourth; fourth > 0 && nu <= endlessFreedom {
		u.DegreesOfFreedom = nu
	}
	u.Error = u.Budget.distribution(variance, fourth > 0, max(widest.Reading, widest.Scale))
	if u.Error.Widest != 0 || u.Error.Freedom != 0 {
		u.CoverageFactor = u.Error.Reach() / share
	}
}

// InStandards is Error in multiples of Standard: a normal one where there is none.
func (u *Uncertainty) InStandards() Distribution {
	if u.Standard == 0 {
		return Distribution{Rest: 1}
	}
	by := u.Reference / u.Standard
	return Distribution{u.Error.Widest * by, u.Error.Rest * by, u.Error.Freedom}
}

// ForResult is the uncertainty of another result with the same budget, its shares being
// of another reference.
func (u Uncertainty) ForResult(reference float64) Uncertainty {
	if u.Reference != 0 {
		u.Standard *= math.Abs(reference) / u.Reference
	}
	u.Reference = math.Abs(reference)
	return u
}
