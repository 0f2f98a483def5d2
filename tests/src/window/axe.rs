//! axe-core, which looks for barriers in the page as it stands.

use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

use serde_json::{Value, json};

use super::app::target;
use super::session::Window;

const VERSION: &str = "4.14.1";

/// WCAG 2.0 to 2.2, levels A and AA, as axe-core names them.
const RULES: [&str; 5] = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

impl Window {
    /// Every violation found, as text to read; empty when there is none.
    pub fn axe(&self) -> String {
        self.settle();
        if self.run("return typeof window.axe") != json!("object") {
            self.now("loading axe-core", self.client().execute(source(), Vec::new()));
        }
        let script = "
            const [rules, done] = arguments;
            axe.run(document, {runOnly: {type: 'tag', values: rules}, resultTypes: ['violations']})
               .then(found => done({violations: found.violations, passes: found.passes.length}), why => done({why: String(why)}))";
        let found = self.now("axe-core", self.client().execute_async(script, vec![json!(RULES)]));
        assert!(found["why"].is_null(), "axe-core failed: {}", found["why"]);
        // A page on which not one rule held was not looked at.
        assert!(found["passes"].as_u64().is_some_and(|passes| passes > 0), "axe-core found nothing to look at");
        let violations = found["violations"].as_array().map(Vec::as_slice).unwrap_or_default();
        violations.iter().map(written).collect()
    }
}

fn written(violation: &Value) -> String {
    let mut text = format!("{}: {}\n", word(&violation["id"]), word(&violation["help"]));
    for node in violation["nodes"].as_array().map(Vec::as_slice).unwrap_or_default() {
        text += &format!("  {}\n    {}\n", node["target"], word(&node["failureSummary"]).replace('\n', "\n    "));
    }
    text
}

fn word(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

/// axe-core's text, fetched by npm into the build folder the first time.
fn source() -> &'static str {
    static SOURCE: OnceLock<String> = OnceLock::new();
    SOURCE.get_or_init(|| {
        let folder = target().join(format!("axe-core-{VERSION}"));
        let script = folder.join("axe.min.js");
        if !script.exists() {
            fetch(&folder);
        }
        fs::read_to_string(&script).unwrap_or_else(|error| panic!("{}: {error}", script.display()))
    })
}

fn fetch(folder: &PathBuf) {
    fs::create_dir_all(folder).expect("the build folder can be written");
    let package = format!("axe-core@{VERSION}");
    let mut npm = Command::new("npm");
    npm.args(["pack", "--silent", "--pack-destination"]).arg(folder).arg(&package).current_dir(folder);
    let outcome = npm.output().expect("npm starts");
    assert!(outcome.status.success(), "npm could not fetch {package}: {}", String::from_utf8_lossy(&outcome.stderr));
    let mut tar = Command::new("tar");
    tar.arg("xzf").arg(folder.join(format!("axe-core-{VERSION}.tgz"))).arg("-C").arg(folder);
    tar.args(["--strip-components=1", "package/axe.min.js"]);
    assert!(tar.status().expect("tar starts").success(), "axe-core's package could not be unpacked");
}
