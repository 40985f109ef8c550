package operation

import (
	"context"

	"wetrun/internal/text"
)

// A noticeSet is some notices in the words of each language, made once for all
// answers that carry them.
type noticeSet [][]Notice

func noticeSetOf(kind string, codes ...string) (s noticeSet) {
	for _, lang := range text.Languages() {
		s = append(s, noticesOf(lang, kind, codes))
	}
	return s
}

func cautionsOf(codes ...string) noticeSet { return noticeSetOf("caution.", codes...) }

// in are the notices in the language of the request. Nobody changes them.
func (s noticeSet) in(ctx context.Context) []Notice { return s[text.From(ctx)] }

// cautions words cautions by their codes, for answers that choose among them.
func cautions(ctx context.Context, codes ...string) []Notice {
	return noticesOf(text.From(ctx), "caution.", codes)
}
