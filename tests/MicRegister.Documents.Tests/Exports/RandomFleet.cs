using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>An invented register with all that a table can hold, and much that is hard to hold, by a seed.</summary>
internal sealed class RandomFleet(int seed)
{
    private static readonly string[] Serials =
    [
        "00123", "123", "1E5", "2.5E+07", "=A1", "+49", "-7", "O12", "012", "A;B", "A|B", "\"9\"", "ÄÖ-1", "Р-77", "7 / 8", "4711", "4712",
        "GP001", "total", "Sum 3", "kind",
    ];

    private static readonly string[] Texts =
    [
        "Hall 1", "Hall 1 ", " shelf; 2", "rack|3", "two\nlines", "two\r\nlines", "½\" box", "\"quoted\"", "=SUM(A1)", "'=1", "@home", "-",
        "unknown", "n/a", "東京 🎤", "_x0041_", "1,5", "00012", "2026-05-04", "total", "\tTab", "ok", "Reinraum Süd", "a,b,c",
        "x\u200By", "'", "12.5 mV/Pa",
    ];

    private static readonly string[] Makers = ["Northfold", "Quill & Co", "Ostwerk GmbH", "north-fold"];
    private static readonly string[] Models = ["A-12", "A 12", "B7", "1/2\" type", "C;3"];

    private readonly Random _random = new(seed);
    private readonly List<Fact> _facts = [];
    private readonly List<(string Id, DeviceKind Kind)> _devices = [];
    private long _counter;

    public IReadOnlyList<Fact> Facts => _facts;

    /// <summary>States some devices with all that is said of them, then campaigns, limits and settings.</summary>
    public RandomFleet State(int devices = 40)
    {
        for (var i = 0; i < devices; i++) Device(i);
        // Two entries that were found to be one device.
        var (kept, other) = (One(_devices), One(_devices));
        if (kept.Id != other.Id && kept.Kind == other.Kind)
            Say(new DevicesJoined(kept.Id, other.Id, "one"), Day(), Subject.Device(kept.Id), Subject.Device(other.Id));
        if (_random.Next(2) == 0) Say(new SettingsChosen(_random.Next(60), _random.Next(9), 3, 1), Day(), Subject.TheRegister);
        Profile("our-own", []);
        if (_random.Next(2) == 0) Profile(BuiltInProfiles.All[0].Id, BuiltInProfiles.All[0].Written.Limits.Skip(3));
        for (var i = 0; i < 3; i++) Campaign(i);
        return this;
    }

    private void Device(int number)
    {
        var kind = One(DeviceKind.All);
        string? maker = Perhaps(One(Makers)), model = Perhaps(One(Models)), serial = Perhaps(One(Serials), 6);
        var details = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal);
        foreach (var field in DeviceField.OfEveryKind.Concat(kind.Own).Where(f => !f.IsEdition && _random.Next(4) == 0))
            details[field.Key] = Value(field);
        if (serial is null) details[DeviceField.InventoryCode.Key] = FieldValue.Of("INV " + number);
        var settled = InstrumentClasses.Settle(details, _ => null, out var wrong);
        Assert.Null(wrong);
        // Some were entered under a serial number that was corrected later, so that their id tells another.
        var id = DeviceIdentity.IdOf(kind.Key, maker, model, _random.Next(5) == 0 ? "once " + number : serial ?? "code INV " + number);
        if (_devices.Exists(d => d.Id == id)) return;
        _devices.Add((id, kind));
        var subject = Subject.Device(id);
        Say(new DeviceRegistered(kind.Key, maker, model, serial, new(settled.ToDictionary(), StringComparer.Ordinal)), Day(), subject);
        for (var i = _random.Next(3); i > 0; i--) Say(new DeviceMoved(One(Texts)), Day(), subject);
        for (var i = _random.Next(3); i > 0; i--)
            Say(new DeviceStatusChanged(One(Enum.GetValues<DeviceStatus>()), Perhaps(One(Texts))), Day(), subject);
        for (var i = _random.Next(2); i > 0; i--) Say(new DeviceNoted(One(Texts)), Day(), subject);
        for (var i = _random.Next(3); i > 0; i--) Inspect(subject);
        for (var i = _random.Next(6); i > 0; i--) Certify(subject, kind);
    }

    private void Inspect(string subject)
    {
        var passed = _random.Next(3) > 0;
        Say(
            new DeviceInspected(passed, Perhaps(Number(-1, 1)), Perhaps(Number(0, 9)), Perhaps(Number(0, 1)), Perhaps(One(Texts)))
            {
                Undamaged = passed ? Perhaps(true) : Perhaps(false),
                MakersData = Perhaps(One(Texts)),
                Attachment = Perhaps(new string('a', 64)),
            },
            Day(), subject);
    }

    private void Certify(string subject, DeviceKind kind)
    {
        var quantity = _random.Next(5) == 0 ? "response" : kind.Calibrated ?? "general";
        var results = quantity switch
        {
            "sensitivity" when _random.Next(4) == 0 =>
                [Figure(AdjustmentState.AsFound, quantity), Figure(AdjustmentState.AsLeft, quantity)],
            _ when _random.Next(9) == 0 => [Figure(AdjustmentState.AsLeft, quantity)],
            _ when _random.Next(12) == 0 => [],
            _ => (List<CalibrationResult>)[Figure(AdjustmentState.AsFoundAndLeft, quantity)],
        };
        var isYear = _random.Next(8) == 0;
        var day = isYear
            ? new DateOnly(2015 + _random.Next(10), 1, 1)
            : new DateOnly(2018 + _random.Next(8), 1 + _random.Next(3), 1 + _random.Next(3));
        var issued = new CertificateIssued(
            quantity, Perhaps("C-" + _random.Next(4)), Perhaps(One(["House", "Lab West", "Labor Süd; 2"])), Perhaps(One(Texts)),
            Perhaps(One(CalibrationDecisions.Fields)), Perhaps(90.0), Perhaps("open-circuit"),
            Perhaps(One([250, 251.189, 1000, 1.585, 125.5])),
            results, Perhaps(new StatedAir(Perhaps(101.325), Perhaps(Number(-10, 30)), Perhaps(55.0))),
            _devices.Count > 1 ? Perhaps(_devices[0].Id) : null, Perhaps(One(Texts)), Perhaps(day.AddYears(1)),
            Perhaps(new string('c', 64)),
            null, isYear ? "only the year is known" : Perhaps(One(Texts)))
        {
            StatedForKPa = quantity == "level" ? Perhaps(101.325) : null,
            Tone = quantity == "level" ? Perhaps(new StatedTone(251.199, null, Number(0, 1), null, null)) : null,
        };
        Say(issued, Occurred.On(day), subject);
        if (_random.Next(6) == 0)
            Say(new FactAnnulled(_facts[^1].Id.ToString(), "a slip"), Occurred.On(day.AddDays(1)), subject);
    }

    private CalibrationResult Figure(AdjustmentState state, string quantity)
    {
        var (value, unit) = quantity switch
        {
            "sensitivity" => _random.Next(4) switch
            {
                0 => (Number(-45, -30), "dB re 1 V/Pa"),
                1 => (Number(0.01, 0.05), "V/Pa"),
                2 => (Number(-12, -8), "dB"), // few microphones have so much
                _ => (Number(10, 60), "mV/Pa"),
            },
            "static-pressure" => (Number(99, 101), "kPa"),
            "level" => (Number(93.9, 114.1), "dB"),
            _ => (Number(-1, 1), "dB"),
        };
        var uncertaintyUnit = unit == "kPa" ? "kPa" : One(["dB", "%", null]);
        double? u = _random.Next(4) == 0 ? null : Number(0.02, uncertaintyUnit == "%" ? 3 : 0.5);
        return new(state, value, unit, u, u is null ? null : uncertaintyUnit, Perhaps(One([2, 1.96, 2.05])));
    }

    private void Profile(string id, IEnumerable<ProfileLimit> more) => Say(
        new ProfileWritten(
            "Our own; " + One(Texts), "Follows " + One(Texts),
            [
                new(LimitKey.DriftDb, Number(0.1, 0.5), null, "House rule; 3", "own")
                {
                    Document = Perhaps("Doc"), Edition = Perhaps("2021"), Clause = Perhaps("A.1"),
                },
                new(LimitKey.BandFromHz, 44.194, null, "common practice, no source", "common practice"),
                new(LimitKey.CheckTestDay, null, "yes", "x", "own"),
                .. more.Where(l => l.Key is not (LimitKey.DriftDb or LimitKey.BandFromHz or LimitKey.CheckTestDay)),
            ]),
        Day(), Subject.Profile(id));

    private void Campaign(int number)
    {
        var id = $"TRIAL-{number}";
        var name = One([$"Trial {number}", "Total", " Ünsal; 7 ", "\"Q\" 1", "=1+1"]);
        IReadOnlyList<ZoneOffset> offsets = _random.Next(3) switch
        {
            0 => [],
            1 => [new("2026-02-28T00:00:00.000Z", -60)],
            _ => [new("2026-02-28T00:00:00.000Z", 60), new("2026-03-29T01:00:00.000Z", 120)],
        };
        var first = new DateOnly(2026, 3, 1);
        Say(
            new CampaignPlanned(
                name, first, first.AddDays(40), "Europe/Lisbon", offsets, Perhaps(One(Texts)) ?? "", Number(-3, 900),
                One(Enum.GetValues<SourceClass>()), One([50, 44.194]), One([16000, 11.22]) + 100, Perhaps(35.5), Perhaps(120.0),
                One(["our-own", BuiltInProfiles.Usual]), _random.Next(4), Perhaps(2))
            { TrackDeg = Perhaps(Number(0, 360)) },
            Day(), Subject.Campaign(id));
        for (var s = 1; s <= 4; s++)
        {
            var station = One([$"S{s}", $"Nord; {s}", $"={s}", $"00{s}", $"S {s} "]);
            var plan = new StationPlanned(station, Number(30, 40), Number(-40, 40), One(Enum.GetValues<Mount>()), Perhaps(1.2));
            Say(plan, Day(), Subject.Campaign(id));
            List<string> chain = [.. Enumerable.Range(0, _random.Next(6)).Select(_ => One(_devices).Id).Distinct()];
            Say(new ChainPlanned(station, chain), Day(), [Subject.Campaign(id), .. chain.Select(Subject.Device)]);
        }
        foreach (var purpose in Enum.GetValues<KitPurpose>())
        {
            List<string> kit = [.. Enumerable.Range(0, _random.Next(5)).Select(_ => One(_devices).Id).Distinct()];
            Say(new KitPlanned(purpose, kit), Day(), [Subject.Campaign(id), .. kit.Select(Subject.Device)]);
        }
    }

    private void Say(FactBody body, Occurred when, params IReadOnlyList<string> subjects) =>
        _facts.Add(FactText.WriteDerived(new(when, "ada", "desk", ++_counter), body, subjects));

    private Occurred Day() => _random.Next(2) == 0
        ? Occurred.On(new DateOnly(2020 + _random.Next(6), 1 + _random.Next(12), 1 + _random.Next(28)))
        : Occurred.At(new DateTimeOffset(2020 + _random.Next(6), 5, 4, _random.Next(24), 1, 2, 345, TimeSpan.Zero));

    private FieldValue Value(DeviceField field) => field switch
    {
        _ when field == DeviceField.CalibratorClass => FieldValue.Of(One(["1", "1L", "class 2, IEC 60942:2017", "LS"])),
        _ when field == DeviceField.FilterClass => FieldValue.Of("class 1, IEC 61260-1:2014"),
        _ when field == DeviceField.MeterClass => FieldValue.Of("class 1, IEC 61672-1:2013"),
        { Choices: { } choices } => FieldValue.Of(One(choices)),
        { Least: { } least, Greatest: { } greatest } =>
            FieldValue.Of(Math.Clamp(One([Number(least, greatest), 12.7, 251.189, 1.5]), least, greatest)),
        _ => FieldValue.Of(One(Texts)),
    };

    private double Number(double least, double greatest) => _random.Next(3) == 0
        ? Math.Clamp(Math.Round(least + (_random.NextDouble() * (greatest - least)), 3), least, greatest)
        : least + (_random.NextDouble() * (greatest - least));

    private T One<T>(IReadOnlyList<T> of) => of[_random.Next(of.Count)];

    private string? Perhaps(string text, int of = 2) => _random.Next(of) == 0 ? null : text;

    private T? Perhaps<T>(T value)
        where T : struct => _random.Next(2) == 0 ? null : value;

    private StatedAir? Perhaps(StatedAir air) => _random.Next(2) == 0 ? null : air;

    private StatedTone? Perhaps(StatedTone tone) => _random.Next(2) == 0 ? null : tone;
}
