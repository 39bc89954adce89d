//! A static host with one copy of the release: it can be stopped, started again, and given the next build.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use tempfile::TempDir;

const HOUSE: &str = env!("CARGO_MANIFEST_DIR");

pub struct Site {
    pub root: TempDir,
    pub folder: PathBuf,
    pub server: Option<Child>,
    pub origin: String,
    pub below: &'static str,
}

impl Site {
    /// The release at the top of a host.
    pub fn new() -> Self {
        Self::below("")
    }

    /// The release in a folder of a host, such as `kitchen/phone/`.
    pub fn below(below: &'static str) -> Self {
        let mut site = Self::unserved(below);
        site.start();
        site
    }

    /// As [`Site::below`], before its host is started.
    pub fn unserved(below: &'static str) -> Self {
        let root = tempfile::tempdir().unwrap();
        let folder = root.path().join(below);
        let dist = Path::new(HOUSE).join("dist");
        assert!(
            dist.join("sw.js").exists(),
            "there is no release in dist/: run .ci/build first"
        );
        copy(&dist, &folder);
        Self {
            root,
            folder,
            server: None,
            origin: String::new(),
            below,
        }
    }

    /// Lays another copy of the release into a folder of the same host.
    pub fn lay_beside(&self, below: &str) {
        let dist = Path::new(HOUSE).join("dist");
        copy(&dist, &self.root.path().join(below));
    }

    pub fn address(&self) -> String {
        format!("{}{}", self.origin, self.below)
    }

    /// Scheme, host and port, as the browser keeps a site's data apart.
    pub fn origin(&self) -> &str {
        self.origin.trim_end_matches('/')
    }

    /// Starts the host, at the same address as before.
    pub fn start(&mut self) {
        let port = self
            .origin
            .trim_end_matches('/')
            .rsplit(':')
            .next()
            .unwrap();
        let mut server = Command::new("node")
            .arg(format!("{HOUSE}/.ci/static"))
            .arg(self.root.path())
            .args([if port.is_empty() { "0" } else { port }, "plain"])
            .stdout(Stdio::piped())
            .spawn()
            .expect("node is not installed: run .ci/setup");
        let mut address = String::new();
        BufReader::new(server.stdout.take().unwrap())
            .read_line(&mut address)
            .unwrap();
        self.server = Some(server);
        self.origin = address.trim().to_owned();
        assert!(
            self.origin.starts_with("http"),
            "the static host did not start"
        );
    }

    /// No more signal: connections that are open are cut, new ones are refused.
    pub fn stop(&mut self) {
        if let Some(mut server) = self.server.take() {
            server.kill().unwrap();
            server.wait().unwrap();
        }
    }

    /// The files of the build, by path, without the service worker and the pictures that only an install sheet shows.
    pub fn files(&self) -> Vec<String> {
        let mut found = Vec::new();
        list(&self.folder, &self.folder, &mut found);
        found.retain(|path| path != "sw.js" && !path.starts_with("shots/"));
        found.sort();
        found
    }

    /// Changes one file as it is served, and nothing else.
    pub fn edit(&self, path: &str, change: impl FnOnce(String) -> String) {
        let path = self.folder.join(path);
        let text = fs::read_to_string(&path).unwrap();
        let changed = change(text.clone());
        assert_ne!(changed, text, "{} stayed as it was", path.display());
        fs::write(path, changed).unwrap();
    }

    pub fn bytes(&self, path: &str) -> Vec<u8> {
        fs::read(self.folder.join(path)).unwrap()
    }

    /// Puts a file there, or in the place of another.
    pub fn put(&self, path: &str, bytes: &[u8]) {
        fs::write(self.folder.join(path), bytes).unwrap();
    }

    /// Changes the bytes of one file as it is served.
    pub fn spoil(&self, path: &str, change: impl FnOnce(&mut Vec<u8>)) {
        let mut bytes = self.bytes(path);
        change(&mut bytes);
        self.put(path, &bytes);
    }

    pub fn remove(&self, path: &str) {
        fs::remove_file(self.folder.join(path)).unwrap();
    }

    /// Replaces the build by a newer one: the page and its script differ, by a comment each.
    pub fn next_build(&self) {
        self.edit("index.html", |page| page + "<!-- a newer build -->\n");
        let boot = self
            .files()
            .into_iter()
            .find(|path| path.starts_with("boot-"))
            .unwrap();
        self.edit(&boot, |script| script + "// a newer build\n");
        let done = Command::new("node")
            .arg(format!("{HOUSE}/.ci/precache"))
            .arg(&self.folder)
            .output()
            .unwrap();
        assert!(
            done.status.success(),
            "{}",
            String::from_utf8_lossy(&done.stderr)
        );
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        self.stop();
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}

fn list(root: &Path, folder: &Path, found: &mut Vec<String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            list(root, &path, found);
        } else {
            found.push(
                path.strip_prefix(root)
                    .unwrap()
                    .to_str()
                    .unwrap()
                    .to_owned(),
            );
        }
    }
}
