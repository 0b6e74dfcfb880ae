//! Settings, the environment, and `check`.

use super::{Home, Outcome, finish};

#[test]
fn a_broken_settings_file_is_named_with_line_and_key() {
    let home = Home::new();
    home.write("my.toml", "name = \"rackful\"\n[matrix]\nallowed = []\n");
    let says = "my.toml, line 3, key matrix.allowed: unknown field `allowed`";
    home.run(&["parse", "--config", "my.toml", "hi"], "").failed(1, says);
}

#[test]
fn the_default_file_is_read_where_it_lies_and_a_named_one_must_exist() {
    let home = Home::new();
    home.write("config/rackful.toml", "altitude = 2400");
    home.run(&["parse", "hi"], "").failed(1, "config/rackful.toml, line 1, key altitude: invalid type");
    home.run(&["--config", "other.toml", "parse", "hi"], "").failed(1, "cannot read the settings in other.toml");
}

#[test]
fn the_environment_is_checked_too() {
    let home = Home::new();
    let mut command = home.command(&["parse", "hi"]);
    command.env("RACKFUL_TIMEZONE", "Mars/Olympus");
    finish(command, "").failed(1, "RACKFUL_TIMEZONE: 'Mars/Olympus' is not a time zone");
}

/// Without the Matrix driver `serve` can never start, and both say so.
#[cfg(not(feature = "matrix"))]
#[test]
fn a_console_build_says_how_to_get_the_matrix_driver() {
    let home = Home::new();
    home.run(&["serve"], "").failed(1, "was built without Matrix");
    let Outcome { code, err, .. } = home.run(&["check"], "");
    assert_eq!(code, 1);
    assert!(err.contains("was built without Matrix"), "{err}");
}

#[test]
fn check_tells_everything_that_is_missing_and_changes_nothing() {
    let home = Home::new();
    let Outcome { code, err, .. } = home.run(&["check"], "");
    assert_eq!(code, 1);
    for says in ["matrix.homeserver", "matrix.user", "matrix.allow", "password"] {
        assert!(err.contains(says), "{says}: {err}");
    }
    assert_eq!(std::fs::read_dir(home.path()).unwrap().count(), 0, "check made something");
}

#[cfg(unix)]
#[test]
fn check_refuses_a_password_that_others_can_read_and_never_prints_one() {
    use std::os::unix::fs::PermissionsExt;
    let home = Home::new();
    home.write("password", "correct horse\n");
    std::fs::set_permissions(home.path().join("password"), std::fs::Permissions::from_mode(0o644)).unwrap();
    home.write("my.toml", "[matrix]\npassword_file = \"password\"\n");
    let Outcome { code, out, err } = home.run(&["--config", "my.toml", "check"], "");
    assert_eq!(code, 1);
    assert!(err.contains("chmod 600") && !format!("{out}{err}").contains("horse"), "{err}");
}

#[cfg(feature = "matrix")]
#[test]
fn check_is_content_when_serve_could_start() {
    let home = Home::new();
    let settings = [
        ("RACKFUL_HOMESERVER", "https://matrix.example.org"),
        ("RACKFUL_USER", "@rackful:example.org"),
        ("RACKFUL_ALLOW", "example.org"),
        ("RACKFUL_PASSWORD", "correct horse"),
    ];
    let mut command = home.command(&["check"]);
    command.envs(settings);
    assert!(finish(command, "").well().ends_with("serve could start\n"));
    for (left_out, _) in settings {
        let mut command = home.command(&["check"]);
        command.envs(settings).env_remove(left_out);
        assert_eq!(finish(command, "").code, 1, "without {left_out}");
    }
    assert_eq!(std::fs::read_dir(home.path()).unwrap().count(), 0, "check made something");
}
