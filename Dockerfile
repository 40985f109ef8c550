# The builder image can be replaced, for instance by a local one:
#   --build-arg BUILDER=my/golang:1.26
ARG BUILDER=golang:1.26-bookworm
FROM ${BUILDER} AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
ARG VERSION=development
RUN CGO_ENABLED=0 go build -trimpath -buildvcs=false -pgo=cmd/wetrun/cpu.pgo -tags validator_novalidatefn,grpcnotrace \
    -ldflags "-s -w -X wetrun/internal/buildinfo.Version=${VERSION}" -o /wetrun ./cmd/wetrun

FROM scratch
COPY --from=build /wetrun /wetrun
USER 65532:65532
ENV WETRUN_ADDR=0.0.0.0:8080 WETRUN_DRAIN_DELAY=5s
EXPOSE 8080
HEALTHCHECK --interval=10s --timeout=4s --start-period=2s CMD ["/wetrun", "healthcheck"]
ENTRYPOINT ["/wetrun"]
CMD ["serve"]
