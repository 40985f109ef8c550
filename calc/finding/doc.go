// Package finding is what the arithmetic of calibration says beside its numbers: where an
// input is wrong (Violation), where it is unusual (Warning), and whether something lies
// within its tolerance (Verdict). It knows no formulas.
package finding
