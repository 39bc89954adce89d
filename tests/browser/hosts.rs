//! Static hosts that people use, each set up by its recipe in DEVELOPERS.md: headers, compressed files, a folder below the
//! top, and the app from there.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::bench::{Bench, PHONE, Scheme, patiently};
use crate::site::Site;

const GUIDE: &str = include_str!("../../DEVELOPERS.md");
const HEADERS: &str = include_str!("../../.ci/headers.json");

/// Where the recipes have the release, and on which port.
const FOLDER: &str = "/srv/scaleside";
const PORT: &str = "8080";

/// The modules of Debian's apache2 that its recipe needs, and what any site sets.
const APACHE: &str = "Listen 127.0.0.1:8080
ServerName localhost
ServerRoot FOLDER/..
PidFile apache.pid
ErrorLog apache.log
DocumentRoot FOLDER/..
LoadModule mpm_event_module /usr/lib/apache2/modules/mod_mpm_event.so
LoadModule authz_core_module /usr/lib/apache2/modules/mod_authz_core.so
LoadModule dir_module /usr/lib/apache2/modules/mod_dir.so
LoadModule mime_module /usr/lib/apache2/modules/mod_mime.so
LoadModule headers_module /usr/lib/apache2/modules/mod_headers.so
LoadModule rewrite_module /usr/lib/apache2/modules/mod_rewrite.so
TypesConfig /dev/null
<Directory FOLDER/..>
AllowOverride All
</Directory>
";

/// The recipe of a kind: what stands in the guide between the marks of it.
fn recipe(kind: &str) -> &'static str {
    let (_, rest) = GUIDE.split_once(&format!("```{kind}\n")).unwrap();
    rest.split_once("```").unwrap().0
}

/// A host set up by a recipe, with the release compressed as the guide says.
fn hosted(kind: &str) -> Site {
    let mut site = Site::unserved("kitchen/");
    let folder = site
        .folder
        .to_str()
        .unwrap()
        .trim_end_matches('/')
        .to_owned();
    let compressed = Command::new("sh")
        .args(["-c", recipe("compress").trim()])
        .current_dir(&folder)
        .status()
        .unwrap();
    assert!(compressed.success());
    let free = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = free.local_addr().unwrap().port().to_string();
    drop(free);
    let fill = |text: &str| {
        text.replace(FOLDER, &folder)
            .replace("FOLDER", &folder)
            .replace(PORT, &port)
    };
    let place = site.root.path();
    let config = place.join("host.conf");
    let tools = std::env::var("SCALESIDE_NPM")
        .expect("SCALESIDE_NPM is not set: run `source .ci/env` first");
    let hosts = Path::new(&tools).parent().unwrap().join("hosts/usr");
    let mut host = match kind {
        "nginx" => {
            let whole = format!(
                "pid nginx.pid; daemon off; error_log nginx.log; events {{}} http {{ access_log off;
                client_body_temp_path body; proxy_temp_path proxy; fastcgi_temp_path fast; uwsgi_temp_path uwsgi;
                scgi_temp_path scgi; {} }}",
                recipe(kind)
            );
            fs::write(&config, fill(&whole)).unwrap();
            let mut host = Command::new(hosts.join("sbin/nginx"));
            host.args([
                "-e",
                "nginx.log",
                "-p",
                place.to_str().unwrap(),
                "-c",
                config.to_str().unwrap(),
            ]);
            host
        }
        "apache" => {
            fs::write(site.folder.join(".htaccess"), fill(recipe(kind))).unwrap();
            fs::write(&config, fill(APACHE)).unwrap();
            let mut host = Command::new("apache2");
            host.args(["-D", "FOREGROUND", "-f", config.to_str().unwrap()]);
            host
        }
        _ => {
            fs::write(
                &config,
                fill(&format!("{{\n  admin off\n}}\n{}", recipe(kind))),
            )
            .unwrap();
            let mut host = Command::new(hosts.join("bin/caddy"));
            host.args([
                "run",
                "--adapter",
                "caddyfile",
                "--config",
                config.to_str().unwrap(),
            ]);
            host.env("HOME", place)
                .env("XDG_DATA_HOME", place)
                .env("XDG_CONFIG_HOME", place);
            host
        }
    };
    // As root each of these would answer as somebody who may not look into this folder.
    open_to_all(place);
    let started = host
        .stdout(Stdio::null())
        .stderr(fs::File::create(place.join("said")).unwrap())
        .spawn();
    site.server = Some(
        started.unwrap_or_else(|why| panic!("{kind} is not installed ({why}): run .ci/setup")),
    );
    site.origin = format!("http://localhost:{port}/");
    let answers = patiently(|| std::net::TcpStream::connect(format!("127.0.0.1:{port}")));
    let said = fs::read_to_string(place.join("said")).unwrap();
    answers.unwrap_or_else(|why| panic!("{kind} does not answer: {why}\n{said}"));
    site
}

fn open_to_all(folder: &Path) {
    let opened = Command::new("chmod")
        .args(["-R", "a+rX"])
        .arg(folder)
        .status()
        .unwrap();
    assert!(opened.success());
}

/// What a host answers: status, headers, size of the body as it came.
fn asked(address: &str) -> (u16, BTreeMap<String, String>, u64) {
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/browser/scripts/asked.js"
    );
    let read = Command::new("node")
        .args([script, address])
        .output()
        .unwrap();
    assert!(
        read.status.success(),
        "{}",
        String::from_utf8_lossy(&read.stderr)
    );
    serde_json::from_slice(&read.stdout).unwrap()
}

fn serves_the_app(kind: &str) {
    let site = hosted(kind);
    let address = site.address();
    let wanted: BTreeMap<String, String> = serde_json::from_str(HEADERS).unwrap();
    let files = site.files();
    let named = |ending: &str| {
        files
            .iter()
            .find(|path| path.ends_with(ending))
            .unwrap()
            .clone()
    };
    let (script, module) = (named(".js"), named(".wasm"));
    let mut saved = Vec::new();
    for (path, status, kept, media) in [
        ("", 200, false, "text/html"),
        ("sw.js", 200, false, "text/javascript"),
        (
            "scaleside.webmanifest",
            200,
            false,
            "application/manifest+json",
        ),
        ("icons/scaleside.svg", 200, false, "image/svg+xml"),
        (&script, 200, true, "text/javascript"),
        (&module, 200, true, "application/wasm"),
        ("nowhere", 404, false, "text/html"),
        ("a/b", 404, false, "text/html"),
    ] {
        let (said, headers, size) = asked(&format!("{address}{path}"));
        assert_eq!(said, status, "{kind}: {path}: {headers:?}");
        for (name, value) in &wanted {
            let value = if kept && name == "cache-control" {
                "max-age=31536000, immutable"
            } else {
                value
            };
            assert_eq!(
                headers.get(name).map(String::as_str),
                Some(value),
                "{kind}: {path}: {name}"
            );
        }
        let of = headers.get("content-type").cloned().unwrap_or_default();
        assert!(of.starts_with(media), "{kind}: {path} is {of}");
        if kept {
            assert_eq!(
                headers.get("content-encoding").map(String::as_str),
                Some("gzip"),
                "{kind}: {path}"
            );
            saved.push((size, site.bytes(path).len()));
        }
    }
    println!("{kind}: bytes sent of bytes there: {saved:?}");
    // Off the top of the host, a folder without its slash is sent on.
    assert!(
        (300..400).contains(&asked(address.trim_end_matches('/')).0),
        "{kind}"
    );

    // What lies beside the files for the host alone is nothing of the build.
    let compressed = site.files();
    let of_host = |path: &String| path.ends_with(".gz") || path == ".htaccess";
    let of_build: Vec<String> = compressed
        .into_iter()
        .filter(|path| !of_host(path))
        .collect();
    let bench = Bench::open_at(site, PHONE, Scheme::Light);
    bench.started();
    bench.kept();
    bench.see("Ready without a signal");
    assert_eq!(bench.kept_builds(), [(bench.build(), of_build)]);
    assert_eq!(bench.console_errors(), [""; 0]);
    bench.go("a/b");
    bench.see("Nothing is at this address");
}

#[test]
fn nginx_serves_the_app() {
    serves_the_app("nginx");
}

#[test]
fn apache_serves_the_app() {
    serves_the_app("apache");
}

#[test]
fn caddy_serves_the_app() {
    serves_the_app("caddyfile");
}
