//! The Debian package, built so that the same sources give the same bytes.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::icons;
use crate::notices;
use crate::setup::{self, Purpose};
use crate::step::{self, StepResult};

/// The one compiler whose packages are compared byte by byte.
const TOOLCHAIN: &str = "1.95.0";
/// Name of the desktop file, the icon and the AppStream component.
const ID: &str = "org.fellmark.Fellmark";
/// The cargo packages of the two programs.
const PACKAGES: [&str; 2] = ["fellmark", "fellmark-cli"];
const PROGRAMS: [&str; 2] = ["fellmark", "fell"];

const DESCRIPTION: &str = "\
Description: progress log for hand weavers
 Fellmark plans a warp, keeps the place in the pick sequence, logs each
 sitting and shows how far warp and weft will reach and when the piece
 will be finished. Everything is kept as JSON files in a folder of the
 weaver's choice. The package holds the window, fellmark, and the command
 line, fell.
";

/// Builds the package, and prints where it is and its SHA-256.
pub fn package() -> StepResult {
    setup::setup(Purpose::Package)?;
    let file = build_package(&step::top(), &step::target().join("package"))?;
    step::run(Command::new("sha256sum").arg(file))
}

/// Builds the package twice, from two clones of the current commit in folders of different names, and compares the bytes. Where they
/// differ, it names the files; both packages stay in `target/package-twice`.
pub fn package_twice() -> StepResult {
    setup::setup(Purpose::Package)?;
    let folder = empty(step::target().join("package-twice"))?;
    let mut hashes = Vec::new();
    let mut contents = Vec::new();
    for name in ["first", "the-second-of-the-two"] {
        let clone = folder.join(name);
        step::run(Command::new("git").args(["clone", "--quiet"]).arg(step::top()).arg(&clone))?;
        let file = build_package(&clone, &clone.join("target/package"))?;
        let sum = output(Command::new("sha256sum").arg(&file))?;
        let hash = sum.split_whitespace().next().unwrap_or_default().to_owned();
        println!("{hash} {name}");
        hashes.push(hash);
        let unpacked = folder.join(format!("{name}-unpacked"));
        step::run(Command::new("dpkg-deb").arg("--raw-extract").arg(&file).arg(&unpacked))?;
        contents.push(unpacked);
        fs::rename(&file, folder.join(format!("{name}.deb"))).map_err(|error| problem(&file, &error))?;
        fs::remove_dir_all(clone.join("target")).map_err(|error| problem(&clone, &error))?;
    }
    hashes.dedup();
    if hashes.len() == 1 {
        return Ok(());
    }
    // It ends with an error where anything differs, which is said below.
    let _ = step::run(Command::new("diff").args(["--recursive", "--brief", "--no-dereference"]).args(&contents));
    Err(format!("The two packages differ; both are in {}.", folder.display()))
}

/// Builds the package of the sources in `top` with everything it needs in `target`, and gives its path.
pub fn build_package(top: &Path, target: &Path) -> Result<PathBuf, String> {
    let version = version_of(top)?;
    let date = output(Command::new("git").current_dir(top).args(["log", "-1", "--format=%ct"]))?;
    let environment = reproducible(top, target, date.trim())?;
    let with = |command: &mut Command| {
        command.current_dir(top).envs(environment.iter().map(|(name, value)| (name, value)));
    };
    let mut cargo = step::cargo("build", &["--release", "-p", PACKAGES[0], "-p", PACKAGES[1]]);
    with(cargo.arg("--locked"));
    step::run(&mut cargo)?;
    let manuals = empty(target.join("manuals"))?;
    let mut cargo = step::cargo("run", &["--release", "-p", PACKAGES[0], "--example", "manuals"]);
    with(cargo.args(["--locked", "--"]).arg(&manuals));
    step::run(&mut cargo)?;

    let root = empty(target.join("root"))?;
    stage_programs(&target.join("release"), &root)?;
    stage_desktop(top, &root)?;
    stage_manuals(&manuals, &root)?;
    stage_documents(top, &root)?;
    let depends = dependencies(&root, target)?;
    control(&root, &version, &depends)?;
    // Whatever the umask was.
    step::run(Command::new("chmod").args(["--recursive", "u+rwX,go+rX,go-w"]).arg(&root))?;

    let file = target.join(format!("fellmark_{version}_{}.deb", architecture()?));
    let mut deb = Command::new("dpkg-deb");
    deb.args(["--root-owner-group", "--build"]).arg(&root).arg(&file);
    step::run(deb.env("SOURCE_DATE_EPOCH", date.trim()))?;
    Ok(file)
}

/// The package just built in `target` again, under a version number below every real one, to upgrade from.
pub fn build_lower_version(target: &Path, file: &Path) -> StepResult {
    let root = target.join("root");
    let control = root.join("DEBIAN/control");
    let text = fs::read_to_string(&control).map_err(|error| problem(&control, &error))?;
    let lowered: Vec<&str> =
        text.lines().map(|line| if line.starts_with("Version: ") { "Version: 0.0.1" } else { line }).collect();
    write(&control, &format!("{}\n", lowered.join("\n")))?;
    step::run(Command::new("dpkg-deb").args(["--root-owner-group", "--build"]).arg(&root).arg(file))?;
    write(&control, &text)
}

/// What makes a build the same wherever and whenever it runs: the compiler, the paths it writes into the programs, and the time.
fn reproducible(top: &Path, target: &Path, date: &str) -> Result<Vec<(&'static str, String)>, String> {
    let compiler = output(Command::new("rustc").current_dir(top).arg("--version"))?;
    if compiler.split_whitespace().nth(1) != Some(TOOLCHAIN) {
        return Err(format!(
            "Packages are built with Rust {TOOLCHAIN}, and this is {}. Run: rustup run {TOOLCHAIN} ./dev package",
            compiler.trim()
        ));
    }
    let home = std::env::var("CARGO_HOME")
        .or_else(|_| std::env::var("HOME").map(|home| format!("{home}/.cargo")))
        .map_err(|_| "Neither CARGO_HOME nor HOME is set.".to_owned())?;
    let flags = [
        format!("--remap-path-prefix={}=/cargo", home),
        format!("--remap-path-prefix={}=/fellmark", top.display()),
        format!("--remap-path-prefix={}=/build", target.display()),
    ];
    Ok(vec![
        ("CARGO_TARGET_DIR", target.display().to_string()),
        ("CARGO_ENCODED_RUSTFLAGS", flags.join("\u{1f}")),
        ("CARGO_INCREMENTAL", "0".to_owned()),
        ("SOURCE_DATE_EPOCH", date.to_owned()),
    ])
}

fn stage_programs(built: &Path, root: &Path) -> StepResult {
    for program in PROGRAMS {
        install(&built.join(program), &root.join("usr/bin").join(program), 0o755)?;
    }
    Ok(())
}

fn stage_desktop(top: &Path, root: &Path) -> StepResult {
    let (linux, share) = (top.join("src-tauri/linux"), root.join("usr/share"));
    let desktop = linux.join(format!("{ID}.desktop"));
    let component = linux.join(format!("{ID}.metainfo.xml"));
    step::run(Command::new("desktop-file-validate").arg(&desktop))?;
    step::run(Command::new("appstreamcli").args(["validate", "--no-net"]).arg(&component))?;
    install(&desktop, &share.join("applications").join(format!("{ID}.desktop")), 0o644)?;
    install(&component, &share.join("metainfo").join(format!("{ID}.metainfo.xml")), 0o644)?;
    let (from, theme) = (top.join("icons"), share.join("icons/hicolor"));
    for side in icons::SIDES {
        let to = theme.join(format!("{side}x{side}/apps/{ID}.png"));
        install(&from.join(icons::png(side)), &to, 0o644)?;
    }
    install(&from.join("fellmark.svg"), &theme.join(format!("scalable/apps/{ID}.svg")), 0o644)
}

fn stage_manuals(manuals: &Path, root: &Path) -> StepResult {
    let share = root.join("usr/share");
    for path in files_in(manuals)? {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let to = match name.as_str() {
            "fell.bash" => share.join("bash-completion/completions/fell"),
            "_fell" => share.join("zsh/vendor-completions/_fell"),
            "fell.fish" => share.join("fish/vendor_completions.d/fell.fish"),
            _ => share.join("man/man1").join(name),
        };
        let is_page = to.extension().is_some_and(|ending| ending == "1");
        install(&path, &to, 0o644)?;
        if is_page {
            compress(&to)?;
        }
    }
    Ok(())
}

fn stage_documents(top: &Path, root: &Path) -> StepResult {
    let documents = root.join("usr/share/doc/fellmark");
    let licence = fs::read_to_string(top.join("LICENSE")).map_err(|error| problem(&top.join("LICENSE"), &error))?;
    write(&documents.join("copyright"), &debian_copyright(&licence))?;
    let changes = documents.join("changelog");
    install(&top.join("CHANGELOG.md"), &changes, 0o644)?;
    compress(&changes)?;
    let notices = documents.join("third-party-notices");
    write(&notices, &notices::third_party_notices(&PACKAGES)?)?;
    compress(&notices)
}

/// The licence in Debian's machine-readable form.
fn debian_copyright(licence: &str) -> String {
    let holder = licence.lines().find_map(|line| line.strip_prefix("Copyright (c) ")).unwrap_or_default();
    let terms: Vec<String> = licence
        .lines()
        .skip_while(|line| !line.starts_with("Permission"))
        .map(|line| if line.is_empty() { " .".to_owned() } else { format!(" {line}") })
        .collect();
    format!(
        "Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/\nUpstream-Name: Fellmark\nComment:\n Libraries \
         that the programs contain are listed in third-party-notices.gz.\n\nFiles: *\nCopyright: {holder}\nLicense: Expat\n{}\n",
        terms.join("\n")
    )
}

/// The Debian packages that hold the shared libraries the programs ask for.
fn dependencies(root: &Path, target: &Path) -> Result<String, String> {
    let folder = empty(target.join("control"))?;
    write(&folder.join("debian/control"), "Source: fellmark\nPackage: fellmark\nArchitecture: any\n")?;
    let mut command = Command::new("dpkg-shlibdeps");
    command.current_dir(&folder).arg("-O").args(PROGRAMS.map(|program| root.join("usr/bin").join(program)));
    let printed = output(&mut command)?;
    let depends = printed.lines().find_map(|line| line.strip_prefix("shlibs:Depends="));
    depends.map(str::to_owned).ok_or_else(|| "dpkg-shlibdeps named no packages.".to_owned())
}

fn control(root: &Path, version: &str, depends: &str) -> StepResult {
    let size: u64 = sizes(root)?.div_ceil(1024);
    let text = format!(
        "Package: fellmark\nVersion: {version}\nArchitecture: {}\nMaintainer: The Fellmark makers <fellmark@fellmark.invalid>\n\
         Installed-Size: {size}\nDepends: {depends}\nSection: misc\nPriority: optional\n{DESCRIPTION}",
        architecture()?
    );
    write(&root.join("DEBIAN/control"), &text)
}

fn version_of(top: &Path) -> Result<String, String> {
    let manifest = top.join("Cargo.toml");
    let text = fs::read_to_string(&manifest).map_err(|error| problem(&manifest, &error))?;
    let version = text.lines().find_map(|line| line.strip_prefix("version = \"")?.strip_suffix('"'));
    version.map(str::to_owned).ok_or_else(|| format!("{}: no version", manifest.display()))
}

fn architecture() -> Result<String, String> {
    Ok(output(Command::new("dpkg").arg("--print-architecture"))?.trim().to_owned())
}

/// Size of everything in a folder, in bytes.
fn sizes(folder: &Path) -> Result<u64, String> {
    let mut sum = 0;
    for path in files_in(folder)? {
        sum +=
            if path.is_dir() { sizes(&path)? } else { path.metadata().map_err(|error| problem(&path, &error))?.len() };
    }
    Ok(sum)
}

fn files_in(folder: &Path) -> Result<Vec<PathBuf>, String> {
    let read = |error: std::io::Error| problem(folder, &error);
    let mut paths = Vec::new();
    for entry in fs::read_dir(folder).map_err(read)? {
        paths.push(entry.map_err(read)?.path());
    }
    paths.sort();
    Ok(paths)
}

fn compress(path: &Path) -> StepResult {
    step::run(Command::new("gzip").args(["--best", "--no-name", "--force"]).arg(path))
}

fn install(from: &Path, to: &Path, mode: u32) -> StepResult {
    make_parent(to)?;
    fs::copy(from, to).map_err(|error| problem(from, &error))?;
    fs::set_permissions(to, fs::Permissions::from_mode(mode)).map_err(|error| problem(to, &error))
}

fn write(path: &Path, text: &str) -> StepResult {
    make_parent(path)?;
    fs::write(path, text).map_err(|error| problem(path, &error))
}

fn make_parent(path: &Path) -> StepResult {
    let parent = path.parent().unwrap_or(path);
    fs::create_dir_all(parent).map_err(|error| problem(parent, &error))
}

/// The folder, with nothing in it.
fn empty(folder: PathBuf) -> Result<PathBuf, String> {
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|error| problem(&folder, &error))?;
    }
    fs::create_dir_all(&folder).map_err(|error| problem(&folder, &error))?;
    Ok(folder)
}

fn output(command: &mut Command) -> Result<String, String> {
    let name = step::written(command);
    let output = command.output().map_err(|error| format!("{name}: {error}"))?;
    if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    } else {
        Err(format!("{name} failed: {}", String::from_utf8_lossy(&output.stderr).trim()))
    }
}

fn problem(path: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", path.display())
}
