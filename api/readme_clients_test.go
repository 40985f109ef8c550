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

// TestReadmeClients runs the programs that openapi/README.md shows and compares what
// they print with what it says that they do. The one in TypeScript needs a compiler,
// and is run by openapi/client/check.
func TestReadmeClients(t *testing.T) {
	server := httptest.NewServer(service())
	defer server.Close()
	for _, c := range []struct {
		heading, language, file, says string
		command                       []string
	}{
		{"Python", "python", "client.py", `(?m)^# (\{.*\})$`, []string{"python3"}},
		{"Go", "go", "client.go", `(?m)^\t// ([0-9].*)$`, []string{"go", "run"}},
		{"Go without a server", "go", "client.go", `(?m)^\t// ([0-9].*)$`, []string{"go", "run"}},
	} {
		t.Run(c.heading, func(t *testing.T) {
			program := shownProgram(t, c.heading, c.language)
			want := regexp.MustCompile(c.says).FindStringSubmatch(program)
			if want == nil {
				t.Fatal("the page does not say what it prints")
			}
			if _, err := exec.LookPath(c.command[0]); err != nil {
				if os.Getenv("CI") != "" {
					t.Fatal(err)
				}
				t.Skipf("left out: %v", err)
			}
			file := filepath.Join(t.TempDir(), c.file)
			if err := os.WriteFile(file, []byte(strings.ReplaceAll(program, "http://127.0.0.1:8080", server.URL)), 0o600); err != nil {
				t.Fatal(err)
			}
			out, err := exec.CommandContext(t.Context(), c.command[0], append(c.command[1:], file)...).CombinedOutput()
			if err != nil || strings.TrimSpace(string(out)) != want[1] {
				t.Errorf("it prints %s (%v), the page says %s", out, err, want[1])
			}
		})
	}
}

// shownProgram is the program under a heading of openapi/README.md.
func shownProgram(t *testing.T, heading, language string) string {
	t.Helper()
	m := regexp.MustCompile("(?s)\n## " + heading + "\n.*?```" + language + "\n(.*?)```").FindStringSubmatch(pageText(t, clientsPage))
	if m == nil {
		t.Fatalf("openapi/README.md shows no program in %s", language)
	}
	return m[1]
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
	server := httptest.NewServer(service())
	defer server.Close()
	program := strings.ReplaceAll(shownProgram(t, "Python", "python"), "http://127.0.0.1:8080", server.URL)
	for call, want := range map[string]string{
		`ask("ground-speeds", {})`: "Nothing is at this path.",
		`ask("ground-speed", {})`:  "#/runs This field is required.",
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
