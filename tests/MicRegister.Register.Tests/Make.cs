using System.Text;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
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

    /// <summary>A fact of a newer version, whose kind nobody here knows.</summary>
    public static Fact Newer(string device) => FactText.ReadCanonical(Encoding.UTF8.GetBytes(
        """{"at":"2024-01-01","author":"P1","body":{},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000009","kind":"device-"""
        + $$"""weighed","subjects":["device:{{device}}"],"version":1}"""));

    public static Fact Registered(string device, string serial, string kind = "microphone", params (string Key, object Value)[] details) =>
        Of(new DeviceRegistered(kind, "Maker", "Model", serial, Details(details)), "2020-01-01", "device:" + device);

    public static SortedDictionary<string, FieldValue> Details(params (string Key, object Value)[] details) => new(
        details.ToDictionary(d => d.Key, d => d.Value is string s ? FieldValue.Of(s) : FieldValue.Of(Convert.ToDouble(d.Value, System.Globalization.CultureInfo.InvariantCulture))), StringComparer.Ordinal);

    public static Fact Certificate(string device, string day, double levelDb, double? expanded = 0.06, string quantity = "sensitivity", string unit = "dB re 1 V/Pa") =>
        Of(Issued(levelDb, expanded, quantity, unit), day, "device:" + device);

    public static CertificateIssued Issued(double levelDb, double? expanded = 0.06, string quantity = "sensitivity", string unit = "dB re 1 V/Pa") => new(
        quantity, null, "House", null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, levelDb, unit, expanded, "dB", 2)], null, null, null, null, null, null, null);

    /// <summary>A check by voltage whose chain deviates from its certificates, here -38.16 dB re 1 V/Pa.</summary>
    public static ChainChecked Check(string station, CheckMoment moment, double deviationDb, params string[] devices) => new(
        station, moment, devices, "K1", "01JD8XK3ZZ0000000000000000", null, new(99.5, 20, 60), false, CheckMethod.Voltage, [0.39], 0.001, 10, 123.842, [new("certificate", 123.842, 0.05, "certificate 1", null)],
        -38.16 + deviationDb, "V/Pa", null, [new("microphone's certificate", -38.16, 0.03, "certificate 2", null)], deviationDb,
        [new("certificate", "certificate 1", 0.05, "dB", -1, null, UncertaintyDistribution.Normal), new("one insertion, assumed", BudgetLine.Own + "insertions", 0.03, "dB", 1, 4, UncertaintyDistribution.Normal)], 0.0583, 2, 0.1166,
        new("a.wav", 1234567, new string('a', 64), 3, 250.001, 0.004, 0.01, 61, 1.5, 18.5, "2026-07-02 08:10:00"), "windy");

    public static Occurred On(string text) => Occurred.TryParse(text, out var occurred) ? occurred : throw new ArgumentException(text, nameof(text));

    public static DateOnly Day(string text) => On(text).Day;
}
