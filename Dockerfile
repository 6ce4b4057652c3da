# The program alone. Its Postgres stands beside it: DETENT_DATABASE_URL is
# required, and so is DETENT_DISCORD_TOKEN for `serve`.
#
#   docker build --build-arg VERSION="$(git describe --tags --always)" -t detent .

FROM golang:1.26-bookworm AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
ARG VERSION=unknown
RUN CGO_ENABLED=0 go build -trimpath -ldflags "-s -w -X main.version=${VERSION}" -o /out/detent ./cmd/detent \
 && mkdir -m 1777 /out/tmp

FROM scratch
# A static program brings neither the world's certificates nor its time zones.
COPY --from=build /etc/ssl/certs/ca-certificates.crt /etc/ssl/certs/
COPY --from=build /usr/local/go/lib/time/zoneinfo.zip /zoneinfo.zip
COPY --from=build /out/ /
ENV ZONEINFO=/zoneinfo.zip PATH=/
USER 10001:10001
# Health and metrics are served on the loopback unless DETENT_LISTEN says
# otherwise; the check below runs inside and needs no more.
HEALTHCHECK --interval=30s --timeout=5s --start-period=15s CMD ["/detent", "health"]
ENTRYPOINT ["/detent"]
CMD ["serve"]
