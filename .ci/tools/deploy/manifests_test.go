// Package deploy checks the Kubernetes manifests in cmd/wetrun/deploy: each by the
// types of Kubernetes, where no field may be unknown, and all of them by what the
// program really does with their settings.
package deploy

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	appsv1 "k8s.io/api/apps/v1"
	autoscalingv2 "k8s.io/api/autoscaling/v2"
	batchv1 "k8s.io/api/batch/v1"
	corev1 "k8s.io/api/core/v1"
	networkingv1 "k8s.io/api/networking/v1"
	policyv1 "k8s.io/api/policy/v1"
	"k8s.io/apimachinery/pkg/api/resource"
	metav1 "k8s.io/apimachinery/pkg/apis/meta/v1"
	"sigs.k8s.io/yaml"
)

const (
	root      = "../../.."
	manifests = root + "/cmd/wetrun/deploy"
)

// read decodes a manifest strictly: an unknown or doubled field is an error.
func read[T any](t *testing.T, name, kind string) *T {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(manifests, name))
	if err != nil {
		t.Fatal(err)
	}
	into := new(T)
	if err := yaml.UnmarshalStrict(b, into); err != nil {
		t.Fatal(name, err)
	}
	var meta metav1.TypeMeta
	if err := yaml.Unmarshal(b, &meta); err != nil || meta.APIVersion+" "+meta.Kind != kind {
		t.Fatalf("%s is %s %s: %v", name, meta.APIVersion, meta.Kind, err)
	}
	return into
}

func deployment(t *testing.T) *appsv1.Deployment {
	return read[appsv1.Deployment](t, "deployment.yaml", "apps/v1 Deployment")
}

func job(t *testing.T) *batchv1.Job { return read[batchv1.Job](t, "batch-job.yaml", "batch/v1 Job") }

// program builds wetrun once for a test.
func program(t *testing.T) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "wetrun")
	build := exec.Command("go", "build", "-o", name, "./cmd/wetrun")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v %s", err, out)
	}
	return name
}

// env is the environment that a container sets.
func env(c corev1.Container) map[string]string {
	all := map[string]string{}
	for _, e := range c.Env {
		all[e.Name] = e.Value
	}
	return all
}

// TestEveryManifestIsChecked: no file of the folder is forgotten here.
func TestEveryManifestIsChecked(t *testing.T) {
	source := ""
	for _, file := range []string{"manifests_test.go", "running_test.go"} {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		source += string(b)
	}
	files, err := filepath.Glob(manifests + "/*")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, f := range files {
		if name := filepath.Base(f); name != "README.md" && !strings.Contains(source, `"`+name+`"`) {
			t.Errorf("nothing reads %s", f)
		}
	}
}

// TestPodsAreConfined holds both kinds of pod to the profile "restricted" of the Pod
// Security Standards of Kubernetes, and to a root that cannot be written.
func TestPodsAreConfined(t *testing.T) {
	for name, pod := range map[string]corev1.PodSpec{"deployment": deployment(t).Spec.Template.Spec, "job": job(t).Spec.Template.Spec} {
		p := pod.SecurityContext
		if p == nil || p.RunAsNonRoot == nil || !*p.RunAsNonRoot || p.RunAsUser == nil || *p.RunAsUser != 65532 || p.SeccompProfile == nil || p.SeccompProfile.Type != corev1.SeccompProfileTypeRuntimeDefault {
			t.Errorf("%s: %+v", name, p)
		}
		if pod.AutomountServiceAccountToken == nil || *pod.AutomountServiceAccountToken || pod.EnableServiceLinks == nil || *pod.EnableServiceLinks {
			t.Errorf("%s has a token, or variables of services", name)
		}
		if len(pod.Containers) != 1 {
			t.Fatalf("%s has %d containers", name, len(pod.Containers))
		}
		c := pod.Containers[0]
		s := c.SecurityContext
		if s == nil || s.ReadOnlyRootFilesystem == nil || !*s.ReadOnlyRootFilesystem || s.AllowPrivilegeEscalation == nil || *s.AllowPrivilegeEscalation ||
			s.Capabilities == nil || !slices.Equal(s.Capabilities.Drop, []corev1.Capability{"ALL"}) || len(s.Capabilities.Add) > 0 {
			t.Errorf("%s: %+v", name, s)
		}
		if len(c.Command) > 0 {
			t.Errorf("%s: the image has no other command than its own", name)
		}
		checkResources(t, name, c)
	}
}

// checkResources: Go is to hear of the limits. It takes a limit of CPU as its
// GOMAXPROCS by itself (since Go 1.25, rounded up); of memory it must be told.
func checkResources(t *testing.T, name string, c corev1.Container) {
	t.Helper()
	for _, r := range []corev1.ResourceName{corev1.ResourceCPU, corev1.ResourceMemory} {
		request, limit := c.Resources.Requests[r], c.Resources.Limits[r]
		if request.IsZero() || limit.Cmp(request) < 0 {
			t.Errorf("%s: %s from %s to %s", name, r, request.String(), limit.String())
		}
	}
	memory, cpu := c.Resources.Limits[corev1.ResourceMemory], c.Resources.Limits[corev1.ResourceCPU]
	soft, err := resource.ParseQuantity(strings.TrimSuffix(env(c)["GOMEMLIMIT"], "B"))
	if share := float64(soft.Value()) / float64(memory.Value()); err != nil || share < 0.7 || share > 0.9 {
		t.Errorf("%s: GOMEMLIMIT is %.2f of the limit: %v", name, share, err)
	}
	if most := env(c)["WETRUN_MAX_CONNECTIONS"]; name == "deployment" {
		n, err := strconv.Atoi(most)
		// As deploy/README.md has it, under Limits.
		if held := int64(n)*256<<10 + cpu.Value()*80<<20 + 80<<20 + 30e6; err != nil || held > soft.Value() {
			t.Errorf("%s connections may hold %d bytes, GOMEMLIMIT is %d: %v", most, held, soft.Value(), err)
		}
	}
	if cpu.MilliValue()%1000 != 0 || env(c)["GOMAXPROCS"] != "" {
		t.Errorf("%s: a limit of %s is no whole number of threads", name, cpu.String())
	}
}

// TestPodsEndInTime: the pod is not killed before the program has drained and stopped.
func TestPodsEndInTime(t *testing.T) {
	d := deployment(t)
	c := d.Spec.Template.Spec.Containers[0]
	drain, err1 := time.ParseDuration(env(c)["WETRUN_DRAIN_DELAY"])
	stop, err2 := time.ParseDuration(env(c)["WETRUN_STOP_TIMEOUT"])
	grace := d.Spec.Template.Spec.TerminationGracePeriodSeconds
	if err1 != nil || err2 != nil || grace == nil || drain+stop >= time.Duration(*grace)*time.Second {
		t.Fatalf("drain %v, stop %v, grace %v", drain, stop, grace)
	}
	ready := c.ReadinessProbe
	if seen := time.Duration(ready.PeriodSeconds*ready.FailureThreshold) * time.Second; drain < 2*seen {
		t.Errorf("a drain of %v is over when /readyz has been seen to fail for %v", drain, seen)
	}
	for _, p := range []*corev1.Probe{c.StartupProbe, c.LivenessProbe, ready} {
		if p.HTTPGet.Port.String() != "admin" {
			t.Errorf("clients can keep %s from being answered", p.HTTPGet.Path)
		}
	}
	if c.Lifecycle != nil {
		t.Error("preStop would drain a second time")
	}
}

// TestManifestsFitTogether: selectors, names and ports of one are those of another.
func TestManifestsFitTogether(t *testing.T) {
	d := deployment(t)
	labels := d.Spec.Template.Labels
	matches := func(what string, s map[string]string) {
		t.Helper()
		if len(s) == 0 {
			t.Errorf("%s selects everything", what)
		}
		for name, value := range s {
			if labels[name] != value {
				t.Errorf("%s selects %s=%s, the pods have %q", what, name, value, labels[name])
			}
		}
	}
	ports := map[string]int32{}
	for _, p := range d.Spec.Template.Spec.Containers[0].Ports {
		ports[p.Name] = p.ContainerPort
	}
	matches("the deployment", d.Spec.Selector.MatchLabels)
	for _, c := range d.Spec.Template.Spec.TopologySpreadConstraints {
		matches("a spread by "+c.TopologyKey, c.LabelSelector.MatchLabels)
	}
	if len(d.Spec.Template.Spec.TopologySpreadConstraints) == 0 || d.Spec.Replicas == nil {
		t.Fatal("pods are not spread, or there is one")
	}

	s := read[corev1.Service](t, "service.yaml", "v1 Service")
	matches("the service", s.Spec.Selector)
	for _, p := range s.Spec.Ports {
		if ports[p.TargetPort.String()] == 0 || p.TargetPort.String() == "admin" {
			t.Errorf("the service leads to the port %s", p.TargetPort.String())
		}
	}

	h := read[autoscalingv2.HorizontalPodAutoscaler](t, "horizontal-pod-autoscaler.yaml", "autoscaling/v2 HorizontalPodAutoscaler")
	if r := h.Spec.ScaleTargetRef; r.Kind != d.Kind || r.Name != d.Name || r.APIVersion != d.APIVersion {
		t.Errorf("the autoscaler scales %+v", r)
	}
	if h.Spec.MinReplicas == nil || *h.Spec.MinReplicas < 2 || h.Spec.MaxReplicas <= *h.Spec.MinReplicas || len(h.Spec.Metrics) == 0 {
		t.Errorf("%+v", h.Spec)
	}

	b := read[policyv1.PodDisruptionBudget](t, "pod-disruption-budget.yaml", "policy/v1 PodDisruptionBudget")
	matches("the budget", b.Spec.Selector.MatchLabels)
	if n := b.Spec.MaxUnavailable; n == nil || n.IntValue() < 1 || n.IntValue() >= min(int(*h.Spec.MinReplicas), int(*d.Spec.Replicas)) {
		t.Errorf("the budget leaves nothing running, or lets no node be emptied: %v", n)
	}

	n := read[networkingv1.NetworkPolicy](t, "network-policy.yaml", "networking.k8s.io/v1 NetworkPolicy")
	matches("the policy", n.Spec.PodSelector.MatchLabels)
	open := map[string]bool{}
	for _, rule := range n.Spec.Ingress {
		if len(rule.Ports) == 0 {
			t.Error("the policy opens every port")
		}
		for _, p := range rule.Ports {
			open[p.Port.String()] = len(rule.From) == 0
			if ports[p.Port.String()] == 0 {
				t.Errorf("the policy opens the port %s", p.Port.String())
			}
		}
	}
	if !open["http"] || open["admin"] || len(open) != 2 {
		t.Errorf("open to everybody: %v", open)
	}
}

// TestJobIsBounded: it ends, goes away, and speaks with nobody.
func TestJobIsBounded(t *testing.T) {
	j := job(t)
	runs, stays := j.Spec.ActiveDeadlineSeconds, j.Spec.TTLSecondsAfterFinished
	if runs == nil || *runs < 3600 || stays == nil || *stays < 3600 {
		t.Error("the job may run for ever or stay for ever, or for less than an hour")
	}
	n := read[networkingv1.NetworkPolicy](t, "batch-network-policy.yaml", "networking.k8s.io/v1 NetworkPolicy")
	if !maps.Equal(n.Spec.PodSelector.MatchLabels, j.Spec.Template.Labels) || len(n.Spec.PolicyTypes) != 2 || len(n.Spec.Ingress)+len(n.Spec.Egress) > 0 {
		t.Errorf("%+v", n.Spec)
	}
}
