package main

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// certificate writes a new self-signed certificate of a serial number.
func certificate(t *testing.T, dir string, serial int64) (certFile, keyFile string) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{
		SerialNumber: big.NewInt(serial), NotAfter: time.Now().Add(time.Hour), DNSNames: []string{"localhost"},
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	certFile, keyFile = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for file, block := range map[string]*pem.Block{certFile: {Type: "CERTIFICATE", Bytes: der}, keyFile: {Type: "PRIVATE KEY", Bytes: keyDER}} {
		if err := os.WriteFile(file, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return certFile, keyFile
}

// TestTLS serves by TLS 1.2 and 1.3, not below, and takes a new certificate without
// a restart.
func TestTLS(t *testing.T) {
	dir := t.TempDir()
	certFile, keyFile := certificate(t, dir, 1)
	addr, stop, code := serving(t, map[string]string{"WETRUN_TLS_CERT": certFile, "WETRUN_TLS_KEY": keyFile})
	serial := func(version uint16) (int64, error) {
		conn, err := tls.Dial("tcp", addr, &tls.Config{InsecureSkipVerify: true, MinVersion: version, MaxVersion: version})
		if err != nil {
			return 0, err
		}
		defer conn.Close()
		return conn.ConnectionState().PeerCertificates[0].SerialNumber.Int64(), nil
	}
	for version, works := range map[uint16]bool{tls.VersionTLS11: false, tls.VersionTLS12: true, tls.VersionTLS13: true} {
		if n, err := serial(version); (err == nil) != works || works && n != 1 {
			t.Errorf("%s: certificate %d, %v", tls.VersionName(version), n, err)
		}
	}
	c := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{InsecureSkipVerify: true}, ForceAttemptHTTP2: true}}
	resp, err := c.Post("https://"+addr+"/v1/ground-speed", "application/json", strings.NewReader(speed))
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusOK || resp.ProtoMajor != 2 {
		t.Errorf("%s %s", resp.Proto, resp.Status)
	}
	c.CloseIdleConnections()
	certificate(t, dir, 2)
	for until := time.Now().Add(5 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		if n, err := serial(tls.VersionTLS13); err == nil && n == 2 {
			break
		}
		if time.Now().After(until) {
			t.Fatal("the new certificate does not come")
		}
	}
	stop()
	exits(t, code, 0)
}

// TestKeyOpensServer makes a key by the command, and uses it.
func TestKeyOpensServer(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"key", "farm"}, noEnv, nil, &out, &errs); code != 0 {
		t.Fatal(code, errs.String())
	}
	secret, line, _ := strings.Cut(strings.TrimSpace(out.String()), "\n")
	file := filepath.Join(t.TempDir(), "keys")
	if err := os.WriteFile(file, []byte(line), 0o600); err != nil {
		t.Fatal(err)
	}
	log := new(safeBuffer)
	addr, stop, code := servingTo(t, log, noEnv, "-keys", file)
	for key, status := range map[string]int{secret: 200, "": 401, line: 401} {
		req, _ := http.NewRequest(http.MethodGet, "http://"+addr+"/v1/units", nil)
		if key != "" {
			req.Header.Set("Authorization", "Bearer "+key)
		}
		resp, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		if resp.StatusCode != status {
			t.Errorf("with %q: %s, want %d", key, resp.Status, status)
		}
	}
	stop()
	exits(t, code, 0)
	for line := range strings.Lines(log.String()) {
		if strings.Contains(line, "status=200") != strings.Contains(line, "key=farm") {
			t.Errorf("the line of log names another holder: %s", line)
		}
	}
	if strings.Count(log.String(), "key=farm") != 1 {
		t.Errorf("no line names the holder: %s", log)
	}
}

// TestWelcomeSaysWhoMayAsk: an open server on the network is allowed, and said.
func TestWelcomeSaysWhoMayAsk(t *testing.T) {
	local, all := &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 1}, &net.TCPAddr{IP: net.IPv4zero, Port: 1}
	for _, c := range []struct {
		config     config
		addr       net.Addr
		says, lack string
	}{
		{config{}, local, "http://127.0.0.1:1", "Open to everybody"},
		{config{}, all, "Open to everybody", "clear text"},
		{config{keys: "k"}, all, "clear text", "Open to everybody"},
		{config{keys: "k"}, local, "Bearer KEY", "clear text"},
		{config{keys: "k", tlsCert: "c"}, all, "https://", "clear text"},
	} {
		if text := c.config.welcome(c.addr); !strings.Contains(text, c.says) || strings.Contains(text, c.lack) {
			t.Errorf("%+v at %v: %s", c.config, c.addr, text)
		}
	}
}

func TestAccessThatIsRefused(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad")
	if err := os.WriteFile(bad, []byte("farm"), 0o600); err != nil {
		t.Fatal(err)
	}
	for says, args := range map[string][]string{
		"-keys cannot be used":      {"-keys", bad},
		"no such file":              {"-keys", bad + "x"},
		"both files":                {"-tls-cert", bad},
		"-tls-key cannot be used":   {"-tls-cert", bad, "-tls-key", bad},
		"1 to 64 letters":           {"key", "a b"},
		"wetrun key takes one name": {"key"},
		"must not begin with -":     {"key", "-h"},
		`for flag -keys: write the`: {"-keys", ""},
		`flag -tls-cert: write the`: {"-tls-cert", "", "-tls-key", bad},
		`flag -tls-key: write the`:  {"-tls-cert", bad, "-tls-key="},
		"-addr and the others":      {"-adr", "x"},
	} {
		var out, errs bytes.Buffer
		if code := run(t.Context(), args, noEnv, nil, &out, &errs); code == 0 || !strings.Contains(errs.String(), says) {
			t.Errorf("%v: %d %s", args, code, errs.String())
		}
	}
}
