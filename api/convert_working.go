package api

import "wetrun/calc/method"

var convertMethods = methodsOf(method.UnitConversion)

func (r *ConvertRequest) work(w *working, a *ConvertResponse) {
	w.line(method.UnitConversion, "/quantity", a.Quantity, put("x", r.Quantity))
}

// workConversion adds the line of a quantity that is answered in another unit than it
// was given in.
func (w *working) workConversion(member string, result, given Quantity) {
	if result.Unit != given.Unit {
		w.line(method.UnitConversion, member, result, put("x", given))
	}
}
