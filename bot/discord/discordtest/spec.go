package discordtest

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// spec is the platform's published description of its HTTP API, which payloads
// are checked against: once as published, and once with its objects closed,
// because the description itself lets unknown keys pass.
type spec struct {
	open, closed *jsonschema.Compiler

	mu       sync.Mutex // compilers are not safe for use by several
	compiled map[string][2]*jsonschema.Schema
}

// readSpec reads the description once for all tests of a process: it is large.
var readSpec = sync.OnceValues(func() (*spec, error) {
	path, err := specPath()
	if err != nil {
		return nil, err
	}
	var compilers [2]*jsonschema.Compiler
	for i := range compilers {
		file, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		doc, err := jsonschema.UnmarshalJSON(file)
		file.Close()
		if err != nil {
			return nil, err
		}
		if i == 1 {
			closeObjects(doc)
		}
		compilers[i] = jsonschema.NewCompiler()
		if err := compilers[i].AddResource("openapi.json", doc); err != nil {
			return nil, err
		}
	}
	return &spec{open: compilers[0], closed: compilers[1], compiled: map[string][2]*jsonschema.Schema{}}, nil
})

// loadSpec gives the description, or nil where it is not kept and not required.
func loadSpec(tb testing.TB) *spec {
	s, err := readSpec()
	if err != nil {
		if !os.IsNotExist(err) || os.Getenv("DETENT_REQUIRE_SPEC") == "1" {
			tb.Fatalf("discordtest: the platform's description cannot be read: %v", err)
		}
		return nil
	}
	return s
}

// specPath is where the description is looked for: where DETENT_PLATFORM_SPEC
// says, else beside the checkout.
func specPath() (string, error) {
	if path := os.Getenv("DETENT_PLATFORM_SPEC"); path != "" {
		return path, nil
	}
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, "../shared/platform/openapi.json"), nil
		}
		if parent := filepath.Dir(dir); parent != dir {
			dir = parent
			continue
		}
		return "", &os.PathError{Op: "find", Path: "go.mod", Err: os.ErrNotExist}
	}
}

// closeObjects forbids, in every object schema that lists its keys, the others.
func closeObjects(node any) {
	switch node := node.(type) {
	case map[string]any:
		_, lists := node["properties"].(map[string]any)
		_, says := node["additionalProperties"]
		if lists && !says && node["type"] == "object" {
			node["additionalProperties"] = false
		}
		for _, child := range node {
			closeObjects(child)
		}
	case []any:
		for _, child := range node {
			closeObjects(child)
		}
	}
}

// check holds a payload against a named schema of the description.
func (s *spec) check(b *broken, name string, body []byte) {
	if s == nil || name == "" {
		return
	}
	var payload any
	if err := json.Unmarshal(body, &payload); err != nil {
		b.add(MalformedBody, "%v", err)
		return
	}
	payload = tolerate(payload)
	schemas, err := s.schema(name)
	if err != nil {
		b.add(PayloadSchema, "the description has no %s: %v", name, err)
		return
	}
	if err := schemas[0].Validate(payload); err != nil {
		b.add(PayloadSchema, "%v", err)
	} else if err := schemas[1].Validate(payload); err != nil {
		b.add(UnknownKey, "%v", err)
	}
}

func (s *spec) schema(name string) (schemas [2]*jsonschema.Schema, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if known, ok := s.compiled[name]; ok {
		return known, nil
	}
	for i, compiler := range []*jsonschema.Compiler{s.open, s.closed} {
		schemas[i], err = compiler.Compile("openapi.json#/components/schemas/" + name)
		if err != nil {
			return schemas, fmt.Errorf("compiling %s: %w", name, err)
		}
	}
	s.compiled[name] = schemas
	return schemas, nil
}

// unavoidable are the keys that the client library sends although they were
// left empty. The platform overlooks them, so the check does too, as long as
// they are empty.
var unavoidable = map[string]bool{
	"options": true, "choices": true, "channel_types": true, "autocomplete": true, "required": true,
	"tts": true, "content": true, "components": true, "embeds": true, "sticker_ids": true,
	"description": true, "placeholder": true, "label": true, "disabled": true, "default": true,
	"url": true, "proxy_url": true, "content_type": true, "filename": true, "width": true, "height": true,
	"size": true, "ephemeral": true, "duration_secs": true, "waveform": true, "flags": true,
	"replied_user": true, "spoiler": true,
}

// tolerate leaves out the empty keys that the library cannot, and turns the
// permissions of a command, which travel as a text, into the number that the
// description asks for.
func tolerate(node any) any {
	switch node := node.(type) {
	case map[string]any:
		kept := make(map[string]any, len(node))
		for key, value := range node {
			switch text, isText := value.(string); {
			case unavoidable[key] && isEmpty(value):
			case (key == "ID" || key == "Channel") && isText: // of the library's message edit
			case key == "default_member_permissions" && isText:
				if n, err := strconv.ParseInt(text, 10, 64); err == nil {
					kept[key] = json.Number(strconv.FormatInt(n, 10))
				} else {
					kept[key] = text
				}
			default:
				kept[key] = tolerate(value)
			}
		}
		return kept
	case []any:
		kept := make([]any, len(node))
		for i, value := range node {
			kept[i] = tolerate(value)
		}
		return kept
	}
	return node
}

func isEmpty(value any) bool {
	return value == nil || value == "" || value == false || value == float64(0)
}
