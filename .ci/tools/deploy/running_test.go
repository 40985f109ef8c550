package deploy

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	batchv1 "k8s.io/api/batch/v1"
	corev1 "k8s.io/api/core/v1"
)

// freePort is one of this machine.
func freePort(t *testing.T) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

// TestProbesAreAnswered runs the program with the arguments and settings of the
// deployment, ports aside, and asks what the probes ask.
func TestProbesAreAnswered(t *testing.T) {
	c := deployment(t).Spec.Template.Spec.Containers[0]
	at := map[string]string{} // a named port of the container, and where it is here
	settings := env(c)
	for name, setting := range map[string]string{"http": "WETRUN_ADDR", "admin": "WETRUN_ADMIN_ADDR"} {
		declared := ""
		for _, p := range c.Ports {
			if p.Name == name {
				declared = fmt.Sprintf(":%d", p.ContainerPort)
			}
		}
		if settings[setting] != declared {
			t.Fatalf("%s is %q, the port %s is %q", setting, settings[setting], name, declared)
		}
		at[name] = fmt.Sprintf("127.0.0.1:%d", freePort(t))
		settings[setting] = at[name]
	}
	settings["WETRUN_DRAIN_DELAY"] = "0s" // as TestPodsEndInTime looks at it
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	server := exec.CommandContext(ctx, program(t), c.Args...)
	for name, value := range settings {
		server.Env = append(server.Env, name+"="+value)
	}
	var out bytes.Buffer
	server.Stdout, server.Stderr = &out, &out
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	answered := func(url string) bool {
		resp, err := http.Get(url)
		if err != nil {
			return false
		}
		resp.Body.Close()
		return resp.StatusCode == http.StatusOK
	}
	probe := func(p *corev1.Probe) string {
		return "http://" + at[p.HTTPGet.Port.String()] + p.HTTPGet.Path
	}
	start := c.StartupProbe
	started := time.Now()
	for !answered(probe(start)) {
		if time.Since(started) > time.Duration(start.PeriodSeconds*start.FailureThreshold)*time.Second {
			t.Fatal("not started in the time of the startup probe")
		}
		time.Sleep(50 * time.Millisecond)
	}
	for url, path := range map[string]string{probe(c.LivenessProbe): "/livez", probe(c.ReadinessProbe): "/readyz", "http://" + at["admin"] + "/metrics": "/metrics"} {
		if !strings.HasSuffix(url, path) || !answered(url) {
			t.Errorf("%s does not answer, or is not %s", url, path)
		}
	}
	if err := server.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if err := server.Wait(); err != nil {
		t.Errorf("%v %s", err, out.String())
	}
}

// TestJobAnswersEveryLine runs each pod of the job as Kubernetes would, with its
// index in the environment and put into the arguments, and finds each line of a
// fleet answered once.
func TestJobAnswersEveryLine(t *testing.T) {
	j := job(t)
	c := j.Spec.Template.Spec.Containers[0]
	if j.Spec.CompletionMode == nil || *j.Spec.CompletionMode != batchv1.IndexedCompletion || j.Spec.Completions == nil || j.Spec.Template.Spec.RestartPolicy != corev1.RestartPolicyNever {
		t.Fatalf("%+v", j.Spec)
	}
	if parts := env(c)["WETRUN_BATCH_PARTS"]; parts != strconv.Itoa(int(*j.Spec.Completions)) {
		t.Errorf("%s parts for %d completions", parts, *j.Spec.Completions)
	}
	const lines = 1003
	where := map[string]string{}
	for _, m := range c.VolumeMounts {
		where[m.MountPath] = t.TempDir()
	}
	var fleet strings.Builder
	for i := range lines {
		fmt.Fprintf(&fleet, `{"id":"m%d","operation":"convert","request":{"quantity":{"value":%d,"unit":"psi"},"to":"bar"}}`+"\n", i, i+1)
	}
	if err := os.WriteFile(filepath.Join(where["/fleet"], "fleet.ndjson"), []byte(fleet.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	wetrun := program(t)
	for index := range int(*j.Spec.Completions) {
		all := env(c)
		all["JOB_COMPLETION_INDEX"] = strconv.Itoa(index) // set by Kubernetes for an indexed job
		pod := exec.CommandContext(t.Context(), wetrun)
		for name, value := range all {
			pod.Env = append(pod.Env, name+"="+value)
		}
		for _, arg := range c.Args {
			for name, value := range all {
				arg = strings.ReplaceAll(arg, "$("+name+")", value)
			}
			for mounted, here := range where {
				if inside, ok := strings.CutPrefix(arg, mounted+"/"); ok {
					arg = filepath.Join(here, inside)
				}
			}
			pod.Args = append(pod.Args, arg)
		}
		if out, err := pod.CombinedOutput(); err != nil {
			t.Fatalf("pod %d: %v %s", index, err, out)
		}
	}
	times := map[int]int{}
	files, err := filepath.Glob(where["/answers"] + "/*.ndjson")
	if err != nil || len(files) != int(*j.Spec.Completions) {
		t.Fatalf("%d files of answers: %v", len(files), err)
	}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(b)) {
			var a struct{ Line, Status int }
			if err := json.Unmarshal([]byte(line), &a); err != nil || a.Status != http.StatusOK {
				t.Fatal(line, err)
			}
			times[a.Line]++
		}
	}
	for n := 1; n <= lines; n++ {
		if times[n] != 1 {
			t.Errorf("line %d is answered %d times", n, times[n])
		}
	}
}
