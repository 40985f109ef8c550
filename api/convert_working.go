package api

import "wetrun/calc"

var convertMethods = methodsOf(calc.MethodUnitConversion)

func (r *ConvertRequest) work(w *working, a *ConvertResponse) {
	w.line(calc.MethodUnitConversion, "/quantity", a.Quantity, put("x", r.Quantity))
}

// workConversion adds the line of a quantity that is answered in another unit than it
// was given in.
func (w *working) workConversion(member string, result, given Quantity) {
	if result.Unit != given.Unit {
		w.line(calc.MethodUnitConversion, member, result, put("x", given))
	}
}
