package operation

import (
	"slices"
	"strings"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// ActionAnswer is what to do about one catch, or about all.
type ActionAnswer struct {
	Label   string      `json:"label,omitzero"`
	Pointer string      `json:"pointer"`
	Action  calc.Remedy `json:"action"`
	Text    string      `json:"text"`
}

// closeLimit is the limit up to which a new nozzle may well be outside it.
//
// Source: of 1,565 new nozzles a fifth were outside their makers' tolerances, Flow rate of
// new flat fan nozzles against manufacturing tolerances, Transactions of the ASAE 44(4),
// American Society of Agricultural Engineers, 2001,
// https://elibrary.asabe.org/abstract.asp?aid=6238&t=2&redir=&redirType=
const closeLimit = 5 * unit.Percent

// actionText words an action.
func (r *NozzleAcceptanceRequest) actionText(lang text.Language, x *calc.NozzleAcceptanceResult, a calc.Action) string {
	perCatch := []calc.Remedy{
		calc.CleanAndRecatch, calc.CheckAndRecatch, calc.CatchAgain, calc.ReplaceNozzle, calc.CatchEachNozzle, calc.StillLow, calc.StillHigh,
	}
	switch {
	case a.Do == calc.CatchMore:
		return catchMore(lang, x.Worn, r.CatchPointsOnBoom > 0)
	case a.Do == calc.CheckSize && a.Bed > 0:
		return text.Of(lang, "action.check_size", text.Of(lang, "group.bed", a.Bed))
	case a.Do == calc.CheckSize:
		return text.Of(lang, "action.check_size", text.Coded(lang, "group", string(a.Side)))
	case a.Catch < 0 && slices.Contains(perCatch, a.Do):
		return text.Coded(lang, "action", string(a.Do)+"_many")
	case a.Do == calc.ReplaceNozzle:
		return r.replaceText(lang, x, a.Catch)
	case a.Do == calc.CatchEachNozzle && len(r.Catches[a.Catch].NozzlesOnDrop) > 0:
		return text.Coded(lang, "action", "catch_each_nozzle_drop")
	}
	return text.Coded(lang, "action", string(a.Do))
}

// replaceText says why a nozzle is replaced, and with which kind where that is known.
func (r *NozzleAcceptanceRequest) replaceText(lang text.Language, x *calc.NozzleAcceptanceResult, i int) string {
	why, how := "worn", ""
	if x.Limit <= closeLimit {
		why = "worn_or_never_right"
	}
	if u := x.Uncertainty; u != nil && x.Catches[i].FirstStatus == calc.StatusAbove && u.Catches[i].Within.Conformance == certainty.TooClose {
		why, how = "twice", "_twice"
	}
	because := text.Coded(lang, "high", why)
	nozzle := &r.Nozzle
	if d := r.Catches[i].NozzlesOnDrop; len(d) > 0 {
		nozzle = &d[0].Nozzle // the only one, or each would be caught first
	}
	if kind := nozzle.kind(lang); kind != "" {
		return because + " " + text.Of(lang, "replace.kind"+how, kind)
	}
	return because + " " + text.Coded(lang, "replace", "same"+how)
}

// kind is what to ask for of a nozzle: its size, or else its rating; empty when neither is
// known.
func (n *NozzleRequest) kind(lang text.Language) string {
	switch {
	case n.Size != "":
		return text.Of(lang, "printed.size", string(n.Size))
	case n.RatedFlowRate.Given() && n.RatedPressure.Given():
		return text.Of(lang, "printed.rating", inWords(lang, n.RatedFlowRate), inWords(lang, n.RatedPressure))
	}
	return ""
}

// catchMore says how many points to catch before a new set is bought, and where.
func catchMore(lang text.Language, s certainty.SamplingResult, pointsKnown bool) string {
	switch {
	case s.AllOthers:
		return text.Of(lang, "action.catch_more_all", s.More)
	case !pointsKnown:
		return withSides(lang, text.Of(lang, "action.catch_more_if_there", s.More), s)
	}
	return withSides(lang, text.Of(lang, "action.catch_more", s.More), s)
}

func withSides(lang text.Language, words string, s certainty.SamplingResult) string {
	if len(s.MoreOn) == 0 {
		return words
	}
	var sides []string
	for _, p := range s.MoreOn {
		sides = append(sides, text.Of(lang, "side."+string(p)))
	}
	return words + " " + text.Of(lang, "action.catch_more_begin", strings.Join(sides, ", "))
}

// actsOn tells whether an action is about the catch i, or about all of them: one that is
// outside a mean which another pulls has none.
func (a *NozzleAcceptanceAnswer) actsOn(i int) bool {
	return slices.ContainsFunc(a.Actions, func(x ActionAnswer) bool {
		return x.Pointer == a.origins.pointer(i) || x.Pointer == a.origins.pointer(-1)
	})
}
