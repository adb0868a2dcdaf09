package scenes

import (
	"fmt"
	"net"
	"os"
	"strconv"
	"strings"
	"time"
)

// display tells why no window can be opened, before Ebitengine is asked. Its Linux windows are X11 windows (a Wayland
// session offers them through Xwayland and then sets DISPLAY too).
func display() error {
	name := os.Getenv("DISPLAY")
	if name == "" {
		return fmt.Errorf("%w: the environment variable DISPLAY is not set", ErrNoDisplay)
	}
	network, addresses, err := server(name)
	if err != nil {
		return fmt.Errorf("%w: %v", ErrNoDisplay, err)
	}
	for _, a := range addresses {
		c, e := net.DialTimeout(network, a, 2*time.Second)
		if e == nil {
			return c.Close()
		}
		err = e
	}
	return fmt.Errorf("%w: the display %s does not answer: %v", ErrNoDisplay, name, err)
}

// server returns where the X server of a DISPLAY ([protocol/][host]:number[.screen]) listens (X(7), "DISPLAY NAMES").
func server(name string) (network string, addresses []string, err error) {
	colon := strings.LastIndexByte(name, ':')
	if colon < 0 {
		return "", nil, fmt.Errorf("DISPLAY is %q; it must be like :0 or host:0", name)
	}
	number, _, _ := strings.Cut(name[colon+1:], ".")
	n, err := strconv.Atoi(number)
	if err != nil || n < 0 || n > 59535 {
		return "", nil, fmt.Errorf("DISPLAY is %q; it must be like :0 or host:0", name)
	}
	host := name[:colon]
	if host == "" || strings.HasPrefix(host, "unix") {
		path := "/tmp/.X11-unix/X" + number
		return "unix", []string{path, "@" + path}, nil
	}
	if i := strings.LastIndexByte(host, '/'); i >= 0 {
		host = host[i+1:]
	}
	return "tcp", []string{net.JoinHostPort(strings.Trim(host, "[]"), strconv.Itoa(6000+n))}, nil
}
