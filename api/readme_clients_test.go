package api

import (
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestReadmeClients runs the programs that the README shows and compares what they
// print with what it says that they do. The one in TypeScript needs a compiler, and
// is run by openapi/client/check.
func TestReadmeClients(t *testing.T) {
	server := httptest.NewServer(service())
	defer server.Close()
	for _, c := range []struct {
		language, file, says string
		command              []string
	}{
		{"python", "client.py", `(?m)^# (\{.*\})$`, []string{"python3"}},
		{"go", "client.go", `(?m)^\t// ([0-9].*)$`, []string{"go", "run"}},
	} {
		t.Run(c.language, func(t *testing.T) {
			text, err := os.ReadFile("../README.md")
			if err != nil {
				t.Fatal(err)
			}
			m := regexp.MustCompile("(?s)```" + c.language + "\n(.*?)```").FindSubmatch(text)
			if m == nil {
				t.Fatalf("the README shows no program in %s", c.language)
			}
			want := regexp.MustCompile(c.says).FindSubmatch(m[1])
			if want == nil {
				t.Fatal("the README does not say what it prints")
			}
			if _, err := exec.LookPath(c.command[0]); err != nil {
				if os.Getenv("CI") != "" {
					t.Fatal(err)
				}
				t.Skipf("left out: %v", err)
			}
			file := filepath.Join(t.TempDir(), c.file)
			if err := os.WriteFile(file, []byte(strings.ReplaceAll(string(m[1]), "http://127.0.0.1:8080", server.URL)), 0o600); err != nil {
				t.Fatal(err)
			}
			out, err := exec.CommandContext(t.Context(), c.command[0], append(c.command[1:], file)...).CombinedOutput()
			if err != nil || strings.TrimSpace(string(out)) != string(want[1]) {
				t.Errorf("it prints %s (%v), the README says %s", out, err, want[1])
			}
		})
	}
}

// TestReadmeClientSaysWhatIsWrong: the program in Python prints what a problem says,
// also where it names no member.
func TestReadmeClientSaysWhatIsWrong(t *testing.T) {
	if _, err := exec.LookPath("python3"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skipf("left out: %v", err)
	}
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(service())
	defer server.Close()
	m := regexp.MustCompile("(?s)```python\n(.*?)```").FindSubmatch(text)
	program := strings.ReplaceAll(string(m[1]), "http://127.0.0.1:8080", server.URL)
	for call, want := range map[string]string{
		`ask("ground-speeds", {})`: "No operation or page has this path.",
		`ask("ground-speed", {})`:  "#/runs This is missing and must be given.",
	} {
		file := filepath.Join(t.TempDir(), "client.py")
		if err := os.WriteFile(file, []byte(program+call+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.CommandContext(t.Context(), "python3", file).CombinedOutput()
		if err == nil || !strings.Contains(string(out), want) {
			t.Errorf("%s prints %s (%v), want %s", call, out, err, want)
		}
	}
}
