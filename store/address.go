package store

import (
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/lib/pq"
	"github.com/lib/pq/pqerror"
)

const (
	connectTimeout = 5 * time.Second

	// hostTimeout is connectTimeout for each host of several, so that one that
	// is gone without a word does not keep the others from being asked.
	hostTimeout = 2 * time.Second
)

// BadAddress is an address of a database that cannot be used as it is written.
// It repeats nothing of the address but a parameter's name, since there may be
// a password in any other part.
type BadAddress struct {
	// Parameter is the parameter with a value that cannot be used. It is ""
	// when the address as a whole cannot be read.
	Parameter string

	// Unknown says that the server knows no such parameter.
	Unknown bool

	// Environment says that the parameter is a variable of the environment,
	// where the address is not at fault.
	Environment bool
}

func (b *BadAddress) Error() string {
	switch {
	case b.Parameter == "":
		return "the address of the database cannot be read"
	case b.Unknown:
		return fmt.Sprintf("the address of the database: the server knows no parameter %q", b.Parameter)
	case b.Environment:
		return fmt.Sprintf("the environment variable %s has a value that cannot be used", b.Parameter)
	}
	return fmt.Sprintf("the address of the database: the parameter %q has a value that cannot be used", b.Parameter)
}

// CheckAddress returns a *BadAddress when Open could not read the address. It
// speaks to no server.
func CheckAddress(address string) error {
	_, err := readAddress(address)
	return err
}

// readAddress reads an address in either form that Postgres documents, with one
// host or several: postgres://user@host1:5432,host2:5432/name or
// "host=host1,host2 port=5432,5432 dbname=name". Unless the address says
// otherwise the host that takes writes is meant: no connection to a standby is
// kept that would outlive another server's taking over.
func readAddress(address string) (pq.Config, error) {
	keywords := address
	switch {
	case strings.HasPrefix(address, "postgres://"), strings.HasPrefix(address, "postgresql://"):
		var err error
		if keywords, err = parametersForHosts(address); err != nil {
			return pq.Config{}, &BadAddress{}
		}
	case !isKeywords.MatchString(address):
		return pq.Config{}, &BadAddress{}
	}
	config, err := pq.NewConfig(keywords)
	if err != nil {
		return pq.Config{}, culprit(err)
	}
	if config.TargetSessionAttrs == "" || config.TargetSessionAttrs == pq.TargetSessionAttrsAny {
		config.TargetSessionAttrs = pq.TargetSessionAttrsReadWrite
	}
	switch {
	case config.ConnectTimeout != 0:
	case len(config.Multi) > 0:
		config.ConnectTimeout = hostTimeout
	default:
		config.ConnectTimeout = connectTimeout
	}
	return config.Clone(), nil // which never lacks the map of what the server is told
}

// isKeywords matches the beginning of an address in the form of keywords.
var isKeywords = regexp.MustCompile(`^\s*[a-z_]+\s*=`)

// parametersForHosts moves the hosts and ports of a postgres:// address to its
// parameters of these names, where lib/pq reads lists of them; in front of the
// path it reads no list of ports, no escaped folder of a socket, and no list
// of IPv6 addresses.
func parametersForHosts(address string) (string, error) {
	scheme, rest, _ := strings.Cut(address, "://")
	authority, path := rest, ""
	if at := strings.IndexAny(rest, "/?#"); at >= 0 {
		authority, path = rest[:at], rest[at:]
	}
	at := strings.LastIndexByte(authority, '@') + 1
	hosts, ports, err := splitHosts(authority[at:])
	if err != nil {
		return "", err
	}
	u, err := url.Parse(scheme + "://" + authority[:at] + path)
	if err != nil {
		return "", err
	}
	parameters, err := url.ParseQuery(u.RawQuery) // which tells what url.Query drops
	if err != nil || u.Fragment != "" {
		return "", fmt.Errorf("what follows the name of the database cannot be read: %w", err)
	}
	for name, list := range map[string]string{"host": hosts, "port": ports} {
		if list != "" && !parameters.Has(name) {
			parameters.Set(name, list)
		}
	}
	u.RawQuery = parameters.Encode()
	return u.String(), nil
}

// splitHosts reads "h1:5432,h2" as the lists "h1,h2" and "5432,5432". Without
// any port the second list is empty.
func splitHosts(authority string) (hosts, ports string, err error) {
	const usual = "5432"
	var names, numbers []string
	for host := range strings.SplitSeq(authority, ",") {
		port := ""
		if at := strings.LastIndexByte(host, ':'); at > strings.LastIndexByte(host, ']') {
			host, port = host[:at], host[at+1:]
		}
		if inner, bracketed := strings.CutPrefix(host, "["); bracketed {
			if host, bracketed = strings.CutSuffix(inner, "]"); !bracketed {
				return "", "", fmt.Errorf("an IPv6 address without its closing bracket")
			}
		}
		if host, err = url.PathUnescape(host); err != nil {
			return "", "", err
		}
		names, numbers = append(names, host), append(numbers, port)
	}
	if slices.ContainsFunc(numbers, func(port string) bool { return port != "" }) {
		for i, port := range numbers {
			if port == "" {
				numbers[i] = usual
			}
		}
		ports = strings.Join(numbers, ",")
	}
	return strings.Join(names, ","), ports, nil
}

// named finds the name in what lib/pq says of a value; the rest of that may
// repeat the value.
var named = regexp.MustCompile(`(?:wrong value for|environment variable) "?(\$?)(\w+)`)

// culprit turns an error of lib/pq into a BadAddress, with the parameter where
// the error names one.
func culprit(err error) *BadAddress {
	found := named.FindStringSubmatch(err.Error())
	if found == nil {
		return &BadAddress{}
	}
	return &BadAddress{Parameter: found[2], Environment: found[1] == "$"}
}

// refusedParameter is the *BadAddress of a server that refuses a parameter of
// the address, which lib/pq passes on when it does not know it itself; nil of
// any other error.
func refusedParameter(err error, config pq.Config) error {
	e := pq.As(err, pqerror.UndefinedObject, pqerror.InvalidParameterValue, pqerror.CantChangeRuntimeParam)
	if e == nil {
		return nil
	}
	for name := range config.Runtime {
		if name != "role" && strings.Contains(e.Message, `"`+name+`"`) {
			return &BadAddress{Parameter: name, Unknown: e.Code == pqerror.UndefinedObject}
		}
	}
	return nil
}
