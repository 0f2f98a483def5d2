//! axe-core, which looks for barriers in the page as it stands.

use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::OnceLock;

use serde_json::{Value, json};

use super::session::Window;

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
        assert!(found["passes"].as_u64().is_some_and(|passes| passes > 0), "axe-core found nothing to check");
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

/// axe-core's text, installed with the other checkers of the interface.
fn source() -> &'static str {
    static SOURCE: OnceLock<String> = OnceLock::new();
    SOURCE.get_or_init(|| {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("ui");
        let script = folder.join("node_modules/axe-core/axe.min.js");
        if !script.exists() {
            install(&folder);
        }
        fs::read_to_string(&script).unwrap_or_else(|error| panic!("{}: {error}", script.display()))
    })
}

fn install(folder: &Path) {
    let npm = Command::new("npm").args(["ci", "--loglevel=error"]).current_dir(folder).output().expect("npm starts");
    assert!(npm.status.success(), "npm could not install axe-core: {}", String::from_utf8_lossy(&npm.stderr));
}
