package working

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc/certainty"
)

// A Function is one that formulas call by its name. With its numbers put in it stands
// in a line by that name too, unless it is written out there.
type Function struct {
	Arguments  int // 0 for any number of them
	overLists  bool
	WrittenOut bool // as its numbers with + between them
	unit       unitOfFunction
	value      func(x []float64) float64
}

// A unitOfFunction tells in which unit the value of a function is.
type unitOfFunction uint8

const (
	unitOfArguments unitOfFunction = iota
	rootOfUnit
	noUnit
)

// Functions are all those that formulas may call. What no arithmetic writes out is from
// normal_quantile on: people take it from a table or from a program for statistics.
var Functions = map[string]Function{
	"sum":  {overLists: true, WrittenOut: true, value: sum},
	"min":  {overLists: true, value: slices.Min[[]float64]},
	"max":  {overLists: true, value: slices.Max[[]float64]},
	"abs":  {Arguments: 1, value: func(x []float64) float64 { return math.Abs(x[0]) }},
	"sqrt": {Arguments: 1, unit: rootOfUnit, value: func(x []float64) float64 { return math.Sqrt(x[0]) }},
	"ln":   {Arguments: 1, unit: noUnit, value: func(x []float64) float64 { return math.Log(x[0]) }},
	"exp":  {Arguments: 1, unit: noUnit, value: func(x []float64) float64 { return math.Exp(x[0]) }},

	"normal_quantile":         {Arguments: 1, unit: noUnit, value: func(x []float64) float64 { return distuv.UnitNormal.Quantile(x[0]) }},
	"normal_cdf":              {Arguments: 1, unit: noUnit, value: func(x []float64) float64 { return distuv.UnitNormal.CDF(x[0]) }},
	"t_quantile":              {Arguments: 2, unit: noUnit, value: func(x []float64) float64 { return StudentQuantile(x[0], x[1]) }},
	"t_cdf":                   {Arguments: 2, unit: noUnit, value: func(x []float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: x[1]}.CDF(x[0]) }},
	"uniform_normal_quantile": {Arguments: 3, unit: noUnit, value: func(x []float64) float64 { return certainty.Distribution{Widest: x[1], Rest: x[2]}.Quantile(x[0]) }},
	"uniform_normal_cdf":      {Arguments: 3, unit: noUnit, value: func(x []float64) float64 { return certainty.Distribution{Widest: x[1], Rest: x[2]}.Below(x[0]) }},
	"uniform_t_quantile": {Arguments: 4, unit: noUnit, value: func(x []float64) float64 {
		return certainty.Distribution{Widest: x[1], Rest: x[2], Freedom: x[3]}.Quantile(x[0])
	}},
	"uniform_t_cdf": {Arguments: 4, unit: noUnit, value: func(x []float64) float64 {
		return certainty.Distribution{Widest: x[1], Rest: x[2], Freedom: x[3]}.Below(x[0])
	}},
	"within_both": {Arguments: 5, unit: noUnit, value: func(x []float64) float64 {
		return certainty.BothWithin(certainty.Tails{Below: x[0], Above: x[1]}, certainty.Tails{Below: x[2], Above: x[3]}, x[4])
	}},
	"beta_quantile":       {Arguments: 3, unit: noUnit, value: func(x []float64) float64 { return quantileOfBeta(x[0], x[1], x[2]) }},
	"beta_cdf":            {Arguments: 3, unit: noUnit, value: func(x []float64) float64 { return mathext.RegIncBeta(x[1], x[2], min(x[0], 1)) }},
	"beta_binomial_above": {Arguments: 4, unit: noUnit, value: func(x []float64) float64 { return certainty.BetaBinomialAbove(int(x[0]), int(x[1]), x[2], x[3]) }},
	"most_outside":        {Arguments: 3, unit: noUnit, value: func(x []float64) float64 { return float64(certainty.MostOutside(int(x[0]), int(x[1]), int(x[2]))) }},
}

func sum(x []float64) (total float64) {
	for _, v := range x {
		total += v
	}
	return total
}

// StudentQuantile is Student's t below which a share p lies, with nu degrees of freedom above 0.
func StudentQuantile(p, nu float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: nu}.Quantile(p)
}

// quantileOfBeta is the value below which a share p of a beta distribution lies: its ends
// where none was seen of what a counts, or of what b counts.
func quantileOfBeta(p, a, b float64) float64 {
	switch {
	case a <= 0:
		return 0
	case b <= 0:
		return 1
	}
	return distuv.Beta{Alpha: a, Beta: b}.Quantile(p)
}
