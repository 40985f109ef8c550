package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// mostOfPage is what one reads in a few minutes.
const mostOfPage = 12 << 10

func TestPagesAreShort(t *testing.T) {
	for _, file := range []string{frontPage, "../../DEVELOPERS.md"} {
		if n := len(pageText(t, file)); n > mostOfPage {
			t.Errorf("%s has %d bytes, more than %d: what few people need goes to the README of a folder", file, n, mostOfPage)
		}
	}
}

var (
	fence = regexp.MustCompile("(?s)```text\n.*?```") // pictures and quotations
	link  = regexp.MustCompile(`\]\(([^)\s]+)\)`)
	// inClone are paths of the repository, wherever they stand.
	inClone = regexp.MustCompile("(?:^|[\\s`(@=\"])(\\.?/?(?:\\.ci|api|calc|cmd|internal|openapi|testdata)/[\\w./*-]*)")
	heading = regexp.MustCompile(`(?m)^#+ (.*)$`)
)

// TestPagesNameWhatExists: links and paths lead somewhere; a path with x for the name of
// an operation leads there for one of them.
func TestPagesNameWhatExists(t *testing.T) {
	root := "../.."
	for _, page := range pagesOf(t, root) {
		text := fence.ReplaceAllString(pageText(t, page), "")
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			target, anchor, _ := strings.Cut(m[1], "#")
			if strings.Contains(target, "://") {
				continue
			}
			file := page
			if target != "" {
				file = filepath.Join(filepath.Dir(page), target)
			}
			if _, err := os.Stat(file); err != nil {
				t.Errorf("%s links to %s: %v", page, m[1], err)
			} else if anchor != "" && !hasHeading(pageText(t, file), anchor) {
				t.Errorf("%s links to %s, which has no such heading", page, m[1])
			}
		}
		for _, m := range inClone.FindAllStringSubmatch(text, -1) {
			if path := strings.TrimRight(m[1], "."); !exists(root, path) {
				t.Errorf("%s names %s, which does not exist", page, path)
			}
		}
	}
}

// pagesOf are DEVELOPERS.md and the README of each folder.
func pagesOf(t *testing.T, root string) (all []string) {
	t.Helper()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == ".git" || d.Name() == "node_modules"):
			return filepath.SkipDir
		case d.Name() == "README.md" || d.Name() == "DEVELOPERS.md":
			all = append(all, path)
		}
		return nil
	})
	if err != nil || len(all) < 8 {
		t.Fatalf("pages %q: %v", all, err)
	}
	return all
}

func hasHeading(text, anchor string) bool {
	for _, m := range heading.FindAllStringSubmatch(text, -1) {
		name := regexp.MustCompile(`[^\p{L}\d -]`).ReplaceAllString(strings.ToLower(m[1]), "")
		if strings.ReplaceAll(name, " ", "-") == anchor {
			return true
		}
	}
	return false
}

// placeholder is the name of any operation.
var placeholder = regexp.MustCompile(`/x(\.go|\.yaml|/|$)`)

func exists(root, path string) bool {
	file := filepath.Join(root, path)
	if m := placeholder.FindStringSubmatch(path); m != nil {
		name := "/ground-speed"
		if m[1] == ".go" {
			name = "/ground_speed"
		}
		file = filepath.Join(root, placeholder.ReplaceAllString(path, name+"$1"))
	}
	found, err := filepath.Glob(file)
	return err == nil && len(found) > 0
}
