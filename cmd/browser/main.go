//go:build js && wasm

// Command browser is wetrun for a web page: the same operations, without a server. It
// sets a global function
//
//	wetrun(operation, request, language) -> {status, body}
//
// with the path of an operation under /v1, the request as JSON text, and a language as
// in Accept-Language. The body is the answer or the problem, byte for byte as the service
// has it, but for the id of the request in a problem.
package main

import (
	"bytes"
	"context"
	"syscall/js"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/internal/text"
)

func main() {
	js.Global().Set("wetrun", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 3 {
			return js.Undefined()
		}
		status, body := answer(args[0].String(), args[1].String(), text.Match(args[2].String()))
		return map[string]any{"status": status, "body": body}
	}))
	select {} // the page calls
}

func answer(name, request string, lang text.Language) (status int, body string) {
	refusal := &wire.Refusal{Kind: wire.NotFound}
	switch o := operation.Named(name); {
	case o == nil:
	case len(request) > operation.MostBody:
		refusal = &wire.Refusal{Kind: wire.BodyTooLarge, Args: []any{operation.MostBody}}
	default:
		var out bytes.Buffer
		if _, refusal = o.Run(text.In(context.Background(), lang), []byte(request), &out); refusal == nil {
			return 200, out.String()
		}
	}
	p := refusal.Problem(lang, "browser")
	return p.Status, string(p.Encode())
}
