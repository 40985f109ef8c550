package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"reflect"
	"strconv"
)

// The servers that wetrun is compared with, by net/http alone: one that gives a fixed
// reply, and one that decodes and encodes with encoding/json, calculates between, and
// checks nothing.

// rival is one of them, by its arguments.
func rival(addr string, args []string) error {
	switch {
	case len(args) == 2 && args[0] == "fixed":
		size, err := strconv.Atoi(args[1])
		if err != nil {
			return err
		}
		return serveFixed(addr, size)
	case len(args) == 4 && args[0] == "plain":
		return servePlain(addr, args[1], args[2], args[3])
	}
	return fmt.Errorf("fixed SIZE, or plain OPERATION REQUEST ANSWER")
}

// startRival runs this program as one of them.
func startRival(addr string, args ...string) (*process, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	return start(addr, nil, self, append([]string{"-serve", addr}, args...)...)
}

func serveFixed(addr string, size int) error {
	reply := bytes.Repeat([]byte("x"), size)
	return http.ListenAndServe(addr, http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		_, _ = io.Copy(io.Discard, req.Body)
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Content-Length", strconv.Itoa(size))
		_, _ = w.Write(reply)
	}))
}

// servePlain decodes each request into the struct type that fits the request in a file,
// calculates, and encodes the struct that the answer in the other file fills.
func servePlain(addr, operation, requestFile, answerFile string) error {
	calculate, err := arithmetic(operation)
	if err != nil {
		return err
	}
	request, _, err := structFor(requestFile)
	if err != nil {
		return err
	}
	kind, text, err := structFor(answerFile)
	if err != nil {
		return err
	}
	answer := reflect.New(kind).Interface()
	if err := json.Unmarshal(text, answer); err != nil {
		return err
	}
	return http.ListenAndServe(addr, http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		body := make([]byte, max(0, req.ContentLength)) // quicker than a json.Decoder
		if _, err := io.ReadFull(req.Body, body); err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		if err := json.Unmarshal(body, reflect.New(request).Interface()); err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		if err := calculate(); err != nil {
			http.Error(w, err.Error(), http.StatusUnprocessableEntity)
			return
		}
		b, err := json.Marshal(answer)
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Content-Length", strconv.Itoa(len(b)))
		_, _ = w.Write(b)
	}))
}

// alike is an error where an answer of the plain server has not all that is in wetrun's,
// or another size by more than a twentieth.
func alike(plain, wetrun []byte) error {
	var a, b any
	if err := json.Unmarshal(plain, &a); err != nil {
		return fmt.Errorf("%w in %.200s", err, plain)
	}
	if err := json.Unmarshal(wetrun, &b); err != nil {
		return fmt.Errorf("%w in %.200s", err, wetrun)
	}
	if !reflect.DeepEqual(a, b) {
		return fmt.Errorf("the answer of encoding/json has not the members of wetrun's: %s\nand %s", plain, wetrun)
	}
	if off := float64(len(plain))/float64(len(wetrun)) - 1; off > 0.05 || off < -0.05 {
		return fmt.Errorf("the answer of encoding/json has %d bytes, wetrun's %d", len(plain), len(wetrun))
	}
	return nil
}
