package api

import "wetrun/calc/method"

func (r *ConvertRequest) work(w working, a *ConvertResponse) {
	w.line(method.UnitConversion, "/quantity", a.Quantity).with("x", r.Quantity)
}
