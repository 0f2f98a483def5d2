//! One check value: its inputs by name, what is expected within which tolerance.

use serde_json::Value;

#[derive(serde::Deserialize)]
pub struct Vector {
    pub id: String,
    pub topic: String,
    pub inputs: serde_json::Map<String, Value>,
    pub expected: f64,
    pub unit: String,
    tolerance: Tolerance,
}

#[derive(serde::Deserialize)]
struct Tolerance {
    abs: f64,
}

impl Vector {
    /// Whether the inputs have exactly these names.
    pub fn has(&self, names: &[&str]) -> bool {
        self.inputs.len() == names.len() && names.iter().all(|name| self.inputs.contains_key(*name))
    }

    /// A number, or one written as a sum of fractions: "13/136", "533 1/3".
    pub fn n(&self, name: &str) -> f64 {
        match &self.inputs[name] {
            Value::Number(n) => n.as_f64().unwrap(),
            Value::String(text) => text
                .split(' ')
                .map(|part| match part.split_once('/') {
                    Some((above, below)) => above.parse::<f64>().unwrap() / below.parse::<f64>().unwrap(),
                    None => part.parse::<f64>().unwrap(),
                })
                .sum(),
            other => panic!("{}: {name} is {other}", self.id),
        }
    }

    /// A number that is whole.
    pub fn whole(&self, name: &str) -> u32 {
        let n = self.n(name);
        assert!(n.fract() == 0.0 && (0.0..1e9).contains(&n), "{}: {name} is not whole", self.id);
        n as u32
    }

    pub fn text(&self, name: &str) -> &str {
        self.inputs[name].as_str().unwrap()
    }

    /// Several numbers.
    pub fn list(&self, name: &str) -> Option<Vec<f64>> {
        self.inputs.get(name)?.as_array()?.iter().map(Value::as_f64).collect()
    }

    pub fn agrees(&self, got: f64) -> bool {
        (got - self.expected).abs() <= self.tolerance.abs
    }
}
