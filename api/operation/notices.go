package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/internal/text"
)

// A Warning is something unusual in a request that could be answered all the same.
type Warning struct {
	Code    string `json:"code"`
	Pointer string `json:"pointer"`
	Detail  string `json:"detail"`
	// Slip is how an entry came to be wrong that nobody would believe, WouldAgree what it may
	// have been meant to be.
	Slip       calc.SlipKind `json:"slip,omitzero"`
	WouldAgree wire.Quantity `json:"wouldAgree,omitzero"`
}

// A Notice is a code with its text: a caution, or a next step.
type Notice struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// A noticeSet is some notices in the words of each language, made once for all
// answers that carry them.
type noticeSet [][]Notice

func noticeSetOf(kind string, codes ...string) (s noticeSet) {
	for _, lang := range text.Languages() {
		s = append(s, noticesOf(lang, kind, codes))
	}
	return s
}

// in are the notices in the language of the request. Nobody changes them.
func (s noticeSet) in(ctx context.Context) []Notice { return s[text.From(ctx)] }

// cautions words cautions by their codes, for answers that choose among them.
func cautions(ctx context.Context, codes ...string) []Notice {
	return noticesOf(text.From(ctx), "caution", codes)
}

// noticesOf words codes, of which the texts are kind.code.
func noticesOf(lang text.Language, kind string, codes []string) []Notice {
	all := make([]Notice, len(codes))
	for i, c := range codes {
		all[i] = Notice{c, text.Coded(lang, kind, c)}
	}
	return all
}

// cautionTexts are the texts of cautions, beside a list of their codes.
func cautionTexts(lang text.Language, codes []string) (all []string) {
	for _, c := range codes {
		all = append(all, text.Coded(lang, "caution", c))
	}
	return all
}

// warnings words what calc found unusual.
func warnings(ctx context.Context, found []finding.Warning) []Warning {
	if len(found) == 0 {
		return nil
	}
	lang := text.From(ctx)
	all := make([]Warning, len(found))
	for i, w := range found {
		all[i] = Warning{Code: w.Code, Pointer: wire.Pointer(w.Place), Detail: text.Coded(lang, "warning", w.Code)}
	}
	return all
}

// nextSteps words what to do next by its codes; nil when there is nothing.
func nextSteps(ctx context.Context, codes ...string) []Notice {
	if len(codes) == 0 {
		return nil
	}
	return noticesOf(text.From(ctx), "next", codes)
}
