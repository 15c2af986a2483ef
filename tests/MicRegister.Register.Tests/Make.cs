using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests;

/// <summary>Facts for tests: the shortest way to say something.</summary>
internal static class Make
{
    public static Fact Of(FactBody body, string day, params string[] subjects) => Of(body, day, 0, subjects);

    public static Fact Of(FactBody body, string day, int counter, params string[] subjects) =>
        FactText.WriteDerived(new(On(day), "P1", "desk", counter), body, subjects);

    public static Fact Replacing(Fact target, FactBody body, params string[] subjects) =>
        FactText.WriteDerived(new(target.Occurred, "P1", "desk", 0), body, subjects.Length > 0 ? subjects : target.Subjects, target.Id);

    public static Fact Annulling(Fact target, string reason = "wrong") =>
        FactText.WriteDerived(new(target.Occurred, "P1", "desk", 0), new FactAnnulled(target.Id.ToString(), reason), target.Subjects);

    public static Fact Registered(string device, string serial, string kind = "microphone", params (string Key, object Value)[] details) =>
        Of(new DeviceRegistered(kind, "Maker", "Model", serial, Details(details)), "2020-01-01", "device:" + device);

    public static SortedDictionary<string, FieldValue> Details(params (string Key, object Value)[] details) => new(
        details.ToDictionary(d => d.Key, d => d.Value is string s ? FieldValue.Of(s) : FieldValue.Of(Convert.ToDouble(d.Value, System.Globalization.CultureInfo.InvariantCulture))), StringComparer.Ordinal);

    public static Fact Certificate(string device, string day, double levelDb, double? expanded = 0.06, string quantity = "sensitivity", string unit = "dB re 1 V/Pa") =>
        Of(Issued(levelDb, expanded, quantity, unit), day, "device:" + device);

    public static CertificateIssued Issued(double levelDb, double? expanded = 0.06, string quantity = "sensitivity", string unit = "dB re 1 V/Pa") => new(
        quantity, null, "House", null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, levelDb, unit, expanded, "dB", 2)], null, null, null, null, null, null, null);

    public static Occurred On(string text) => Occurred.TryParse(text, out var occurred) ? occurred : throw new ArgumentException(text, nameof(text));

    public static DateOnly Day(string text) => On(text).Day;
}
