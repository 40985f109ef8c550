package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"wetrun/api"
	"wetrun/internal/text"
)

// TestMessagesFollowTheLanguage: what the command itself says is in the language of -lang,
// wherever that stands.
func TestMessagesFollowTheLanguage(t *testing.T) {
	answers := fleet(t, 20) // lines of a batch, which are no answers
	for _, c := range []struct {
		call             string
		status           int
		english, spanish string
	}{
		{"help", 0, "calculates the calibration of a field sprayer.", "calcula la calibración de una aspersora"},
		{"spray", 2, `there is no command "spray"`, `no hay ningún comando "spray"`},
		{"calibrate", 2, "takes one file", "acepta un archivo"},
		{"calibrate -h", 2, "print a summary that a crew can read", "imprimir un resumen para la cuadrilla"},
		{"calibrate -html -", 2, "no flag -html", "ninguna opción -html"},
		{"calibrate -text=maybe -", 2, "value of -text is", "valor de -text falta"},
		{"calibrate -", 1, "the sheet was refused", "la hoja fue rechazada"},
		{"calibrate cmd/no/such", 1, "no such file", "no such file"}, // of the system
		{"calibrate .", 1, "the sheet could not be read", "no se pudo leer la hoja"},
		{"batch -from many", 2, "value of -from is", "valor de -from falta"},
		{"batch -from 0", 2, "value of -from is", "valor de -from falta"},
		{"batch -out", 2, "value of -out is", "valor de -out falta"},
		{"batch -part 4/3", 2, "-part must be I/N", "-part debe ser I/N"},
		{"batch -help", 2, "file for the summary", "archivo para el resumen"},
		{"batch", 0, "Lines answered: 0", "Líneas respondidas: 0"},
		{"batch -quiet -from 2 -out " + answers + " " + os.DevNull, 1, "does not end with an answer", "no termina con una respuesta"},
		{"batch -quiet -out " + answers + " " + answers, 1, "is the same file", "es el mismo archivo"},
		{"batch -quiet -strict " + answers, 1, "problems in 1 of 20 lines", "problemas en 1 de 20 líneas"},
		{"key", 2, "takes one name", "acepta un nombre"},
		{"key a/b", 1, "a key's name", "el nombre de una clave"},
		{"key river-farm", 0, "The first line is the key.", "La primera línea es la clave."},
	} {
		args := strings.Fields(c.call)
		for _, call := range []struct {
			args []string
			want string
		}{
			{args, c.english},
			{append(args[:len(args):len(args)], "-lang", "es"), c.spanish},
			{append([]string{args[0], "--lang=es-MX"}, args[1:]...), c.spanish},
		} {
			var out, errs bytes.Buffer
			if status := run(t.Context(), call.args, noEnv, strings.NewReader(""), &out, &errs); status != c.status || !strings.Contains(out.String()+errs.String(), call.want) {
				t.Errorf("%q: status %d, no %q in\n%s%s", call.args, status, call.want, out.String(), errs.String())
			}
		}
	}
}

// TestUnknownLanguage is refused in both.
func TestUnknownLanguage(t *testing.T) {
	for _, call := range []string{"help -lang fr", "calibrate -lang=fr -", "batch -lang", "key -lang fr x", "version -lang ="} {
		var out, errs bytes.Buffer
		status := run(t.Context(), strings.Fields(call), noEnv, strings.NewReader(""), &out, &errs)
		if status != 2 || out.Len() > 0 || !strings.Contains(errs.String(), "-lang takes en, es") || !strings.Contains(errs.String(), "-lang acepta en, es") {
			t.Errorf("%s: status %d, %s", call, status, errs.String())
		}
	}
}

// TestHelpListsFlags: in both languages, in columns.
func TestHelpListsFlags(t *testing.T) {
	for _, flag := range []string{"-text", "-out", "-summary", "-from", "-part", "-strict", "-quiet", "-lang"} {
		for _, l := range []string{"en", "es"} {
			var help, errs bytes.Buffer
			run(t.Context(), []string{"help", "-lang", l}, noEnv, nil, &help, &errs)
			if !strings.Contains(help.String(), flag+" ") || strings.Contains(help.String(), "\t") {
				t.Errorf("%s: no %s, or no columns, in\n%s", l, flag, help.String())
			}
		}
	}
}

// TestBatchSummaryInBothLanguages: counts are grouped as the language does, and a time has
// no decimal sign, which would be another in each.
func TestBatchSummaryInBothLanguages(t *testing.T) {
	tally := api.BatchTally{Lines: 1000, Line: 1000, Problems: 1, Kinds: map[string]int{"invalid_request": 1}}
	for l, want := range map[text.Language]string{
		text.English: "Lines answered: 1,000 in 2s (667 per second)\nWith a problem: 1\nLast line: 1,000\nProblems by type:\n         1  invalid_request\n",
		text.Spanish: "Líneas respondidas: 1000 en 2s (667 por segundo)\nCon un problema: 1\nÚltima línea: 1000\nProblemas por tipo:\n         1  invalid_request\n",
	} {
		if got := summary(l, tally, 1500*time.Millisecond); got != want {
			t.Errorf("%s\nwant\n%s", got, want)
		}
	}
	if line := progressLine(text.Spanish, api.BatchTally{Lines: 500}, 2*time.Second, 250, 1000); line != "Líneas: 500 (250 por segundo). Con un problema: 0. Hecho: 25 %. Falta: 6s." {
		t.Error(line)
	}
}

// TestOutputThatCannotBeWritten is a failure of every command, with the system's reason.
func TestOutputThatCannotBeWritten(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skipf("left out: %v", err)
	}
	defer full.Close()
	const sheet = "../../testdata/demo/ready.json"
	for _, call := range []string{"calibrate " + sheet, "calibrate -text " + sheet, "key river-farm", "version", "help"} {
		var errs bytes.Buffer
		if status := run(t.Context(), strings.Fields(call), noEnv, nil, full, &errs); status != 1 || !strings.Contains(errs.String(), "no space left") || strings.Contains(errs.String(), "The first line") {
			t.Errorf("%s: status %d, %s", call, status, errs.String())
		}
	}
}
