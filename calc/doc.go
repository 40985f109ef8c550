// Package calc is the arithmetic of sprayer calibration: pure functions from
// what was measured to what follows from it. It knows no HTTP, no JSON, no clock
// and no randomness.
//
// Quantities are the named types of package unit. Every quantity of this package
// is positive, so a zero field means "not given"; where a field may be left out,
// its comment says what stands in for it.
//
// A function that cannot compute returns an error of type finding.Invalid, which lists
// every violation at once, each with its finding.Place. What is unusual but can be
// computed comes back as Warnings beside the result. Out of tolerance is neither: it is a
// finding.Verdict. How well a result is known is that of package certainty, and the
// formulas themselves, for people to read, are listed by package method.
package calc
