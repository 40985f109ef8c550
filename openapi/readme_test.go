package openapi_test

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// TestReadmeTypeScript: the commands of README.md take the versions and the options that
// client/check tests the program with.
func TestReadmeTypeScript(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	var tested struct {
		DevDependencies map[string]string
	}
	var compiled struct {
		CompilerOptions struct{ Target, Module string }
	}
	for file, into := range map[string]any{"package.json": &tested, "client/tsconfig.json": &compiled} {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(b, into); err != nil {
			t.Fatal(file, err)
		}
	}
	commands := strings.ToLower(string(readme))
	for _, name := range []string{"openapi-fetch", "openapi-typescript", "typescript"} {
		if want := " " + name + "@" + tested.DevDependencies[name]; !strings.Contains(commands, want) {
			t.Errorf("README.md does not install%s", want)
		}
	}
	o := compiled.CompilerOptions
	if want := strings.ToLower("--module " + o.Module + " --target " + o.Target + " client.ts"); !strings.Contains(commands, want) {
		t.Errorf("README.md does not compile with %s", want)
	}
}
