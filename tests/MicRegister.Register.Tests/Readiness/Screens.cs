using MicRegister.Metrology.Responses;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// An invented flight at S1 of the heath on 2 June with one more device in its chain, its certificates with curves, and limits on them. A
/// plan ahead and the trace of the flight are asked the same.
/// </summary>
internal sealed class Screens
{
    public const string Screen = "W1";
    public const string Source = "14 CFR 36, A36.3.9.10";

    private readonly Dictionary<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>> _curves = new(StringComparer.Ordinal);
    private readonly List<ProfileLimit> _limits = [];
    private readonly List<Fact> _facts = [];
    private double _fromHz = 50, _toHz = 10_000;

    public Screens(string kind = "windscreen", params (string Key, object Value)[] details)
    {
        (Kind, Quantity) = (kind, DeviceKind.Find(kind)!.Calibrated!);
        _facts.Add(Make.Registered(Screen, "601", kind, details));
    }

    public string Kind { get; }

    public string Quantity { get; }

    public Screens Limit(string begin, double? value, string? text = null)
    {
        _limits.Add(new(begin.Contains('/', StringComparison.Ordinal) && begin[^1] == '/' ? $"{begin}{Kind}/{Quantity}" : begin, value, text, Source, "own"));
        return this;
    }

    public Screens Add(params Fact[] facts)
    {
        _facts.AddRange(facts);
        return this;
    }

    /// <summary>A certificate with a curve; its facts are told by day and counter.</summary>
    public Fact Certified(
        string day, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? curve, string? method = null, double levelDb = 0.2,
        bool isHere = true, double? expandedDb = 0.1, double? angleDeg = null)
    {
        string? sha = null;
        if (curve is not null)
        {
            sha = _facts.Count.ToString("x", System.Globalization.CultureInfo.InvariantCulture).PadLeft(64, '0');
            if (isHere) _curves[sha] = curve;
        }
        var fact = Make.Of(
            Make.Issued(levelDb, expandedDb, Quantity, "dB") with { Curve = sha, Method = method, FrequencyHz = null, AngleDeg = angleDeg },
            day, _facts.Count, Subject.Device(Screen));
        _facts.Add(fact);
        return fact;
    }

    public Screens With(string day, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? curve, string? method = null, bool isHere = true)
    {
        Certified(day, curve, method, isHere: isHere);
        return this;
    }

    public Screens Inspected(string day, DeviceInspected seen) => Add(Make.Of(seen, day, _facts.Count, Subject.Device(Screen)));

    public Screens Serviced(string day, ServiceKind what, bool beginsAnew = false) =>
        Add(Make.Of(new DeviceServiced(what, "torn foam", beginsAnew), day, _facts.Count, Subject.Device(Screen)));

    /// <summary>Found intact, with its maker's data.</summary>
    public static DeviceInspected Intact { get; } =
        new(true, null, null, null, null) { Undamaged = true, Uncontaminated = true, MakersData = "data sheet, edition 3, in the folder" };

    /// <summary>A curve at the bands from 50 Hz to 10 kHz, at the round figures of a table, one level but at some bands.</summary>
    public static IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> Curve(
        double levelDb = 0.2, double? expandedDb = 0.1, params (double Hz, double Db)[] others) => [(null, Flat(levelDb, expandedDb, others))];

    public static ResponseCurve Flat(double levelDb = 0.2, double? expandedDb = 0.1, params (double Hz, double Db)[] others) =>
        new([.. ThirdOctave.Between(50, 10_000).Select(b => new CurvePoint(
            b.NominalHz, others.Where(o => Math.Abs(o.Hz - b.NominalHz) < 1e-6).Select(o => (double?)o.Db).FirstOrDefault() ?? levelDb, expandedDb))]);

    public Register Register()
    {
        string[] parts = [.. Heath.Chain("S1"), Screen];
        var usual = (ProfileWritten)Heath.Written().Body;
        var known = Heath.With([.. _facts]);
        string[] sounding = DeviceKind.MakesSound(Kind) ? parts : parts[..3];
        Fact Planned(FactBody body) => Make.Of(body, "2026-05-03", [Subject.Campaign(Heath.C), .. parts.Select(Subject.Device)]);
        var register = Heath.With(
        [
            .. _facts, Make.Of(usual with { Limits = [.. usual.Limits, .. _limits] }, "2026-05-02", 9, Subject.Profile(Heath.Rules)),
            Make.Of(
                ((CampaignPlanned)Heath.Planned().Body) with { LowestHz = _fromHz, HighestHz = _toHz }, "2026-05-03", 1,
                Subject.Campaign(Heath.C)),
            Planned(new ChainPlanned("S1", parts)), Heath.Placed("S1", "06-02 06:00", parts),
            Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.11, devices: sounding, on: known),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
            Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, devices: sounding, on: known),
        ]);
        return register.WithCurves(sha => _curves.GetValueOrDefault(sha));
    }

    /// <summary>Plans the campaign for another band than from 50 Hz to 10 kHz.</summary>
    public Screens Used(double fromHz, double toHz)
    {
        (_fromHz, _toHz) = (fromHz, toHz);
        return this;
    }

    /// <summary>What the plan, as of a day ahead, says of the device by a rule.</summary>
    public IReadOnlyList<Finding> Plan(string rule, string today = "2026-05-20") =>
        [.. CampaignReadiness.Judge(Register(), Heath.C, Make.Day(today))!.Findings.Where(f => f.Rule == rule && f.Device is Screen)];

    /// <summary>What the trace of the flight says by a rule of the device.</summary>
    public IReadOnlyList<TraceReason> Trace(string rule)
    {
        var chain = Tracer.Chains(Tracer.ContextOf(Register(), "E1")!, "S1").Single();
        var name = Register().Device(Screen)!.Name;
        return [.. TraceQuestions.All.Single(q => q.Key == rule).Ask(chain).Where(r => r.Text.StartsWith(name, StringComparison.Ordinal))];
    }

    /// <summary>That plan and trace both find nothing by a rule.</summary>
    public void Passes(string rule)
    {
        Assert.Empty(Plan(rule));
        Assert.Empty(Trace(rule));
    }

    /// <summary>That plan and trace both say the same by a rule, of that gravity, and that it holds some words.</summary>
    public void Finds(string rule, Gravity gravity, params string[] words)
    {
        var (planned, stood) = (Assert.Single(Plan(rule)), Assert.Single(Trace(rule)));
        Assert.Equal(gravity, planned.Gravity);
        Assert.Equal(gravity == Gravity.Stops ? TraceVerdict.NotValid : TraceVerdict.Doubtful, stood.Weight);
        Assert.Equal(planned.Text, stood.Text);
        Assert.All(words, w => Assert.Contains(w, planned.Text, StringComparison.Ordinal));
    }
}
