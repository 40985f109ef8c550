package api

import (
	"strings"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc"
)

// tabled are the functions of formulas that no arithmetic writes out: what people
// take from a table or from a program for statistics. In a line they stand by name
// with their numbers put in, and the result is what the table gives.
var tabled = map[string]func(x []float64) float64{
	"normal_quantile": func(x []float64) float64 { return distuv.UnitNormal.Quantile(x[0]) },
	"normal_cdf":      func(x []float64) float64 { return distuv.UnitNormal.CDF(x[0]) },
	"t_quantile":      func(x []float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: x[1]}.Quantile(x[0]) },
	"t_cdf":           func(x []float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: x[1]}.CDF(x[0]) },
	"beta_quantile": func(x []float64) float64 {
		switch { // the ends of what was seen none of, or all of
		case x[1] <= 0:
			return 0
		case x[2] <= 0:
			return 1
		}
		return distuv.Beta{Alpha: x[1], Beta: x[2]}.Quantile(x[0])
	},
	"beta_cdf":            func(x []float64) float64 { return mathext.RegIncBeta(x[1], x[2], min(x[0], 1)) },
	"beta_binomial_above": func(x []float64) float64 { return calc.BetaBinomialAbove(int(x[0]), int(x[1]), x[2], x[3]) },
	"most_outside":        func(x []float64) float64 { return float64(calc.MostOutside(int(x[0]), int(x[1]), int(x[2]))) },
}

// tabledTerm is such a function with its numbers put in.
func tabledTerm(name string, arguments []term) term {
	texts, numbers := make([]string, len(arguments)), make([]float64, len(arguments))
	for i, a := range arguments {
		texts[i], numbers[i] = a.text, a.number
	}
	return term{text: name + "(" + strings.Join(texts, ", ") + ")", number: tabled[name](numbers), factor: 1}
}
