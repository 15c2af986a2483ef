using MicRegister.Metrology.Classes;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Devices;

/// <summary>Classes among the details of a device: as they are entered, and as earlier releases stored them.</summary>
public sealed class InstrumentClassTests
{
    private static readonly DeviceState Bare = new("K1") { Kind = "sound-calibrator", Serial = "51" };

    [Theory]
    [InlineData("1L", "1L", null)]
    [InlineData("1/L", "1L", null)]
    [InlineData("1 L (1997)", "1L", null)]
    [InlineData("class 1, IEC 60942:2017", "1", "2017")]
    [InlineData("1", "1", null)]
    [InlineData("ls/c", "LS/C", null)]
    [InlineData("class 2, IEC 942", "2", "1988")]
    public void A_class_is_stored_with_the_edition_that_it_names(string said, string stored, string? edition)
    {
        var settled = Settle([("calibrator-class", said)], []);

        Assert.Equal(stored, settled["calibrator-class"].Text);
        Assert.Equal(edition, settled.TryGetValue("calibrator-edition", out var e) ? e.Text : null);
    }

    [Theory]
    [InlineData("IEC 60942:2003", "2003")]
    [InlineData("4th edition", "2017")]
    [InlineData("1997+A1:2000", "1997")]
    public void An_edition_is_stored_as_its_year(string said, string stored) =>
        Assert.Equal(stored, Settle([("calibrator-edition", said)], [])["calibrator-edition"].Text);

    // A letter puts an edition right that stood there; a class that tells none keeps it.
    [Theory]
    [InlineData("1L", "2003", "1997")]
    [InlineData("1, 2017", "2003", "2017")]
    [InlineData("2", "2003", "")]
    [InlineData("1L", "1997", "")]
    [InlineData("1", "some edition", "")]
    public void An_edition_that_stood_there_is_put_right_where_the_class_tells_it(string said, string stood, string edition)
    {
        var settled = Settle([("calibrator-class", said)], [("calibrator-edition", stood)]);

        Assert.Equal(edition, settled.TryGetValue("calibrator-edition", out var e) ? e.Text : "");
    }

    [Theory]
    [InlineData("calibrator-class", "gold", "", "", "Class of IEC 60942: 'gold' names no class of a sound calibrator")]
    [InlineData("calibrator-class", "1L (2017)", "", "", "IEC 60942:2017 has no class 1L")]
    [InlineData("calibrator-class", "LS", "calibrator-edition", "1988", "class LS, edition not stated is not of the edition '1988'")]
    [InlineData("calibrator-edition", "2018", "", "", "Edition of IEC 60942 (year): '2018' names no edition that is known")]
    [InlineData("calibrator-edition", "IEC 60942", "", "", "'IEC 60942' can be IEC 60942:1997 or IEC 60942:2003 or IEC 60942:2017")]
    [InlineData("calibrator-edition", "2017", "calibrator-class", "1/C", "class 1/C of IEC 60942:2003 is not of the edition '2017'")]
    public void What_cannot_be_is_refused_with_its_field(string key, string said, string stoodKey, string stood, string says)
    {
        IReadOnlyDictionary<string, FieldValue> details = Details((key, said));
        InstrumentClasses.Settle(details, f => f.Key == stoodKey ? stood : null, out var wrong);

        Assert.NotNull(wrong);
        Assert.Contains(says, $"{wrong.Value.Field.Label}: {wrong.Value.Why}", StringComparison.Ordinal);
    }

    [Fact]
    public void Class_and_edition_said_at_once_must_belong_together()
    {
        InstrumentClasses.Settle(Details(("calibrator-class", "1L"), ("calibrator-edition", "2017")), _ => null, out var wrong);
        Assert.Contains("class 1L of IEC 60942:1997 is not of the edition '2017'", wrong!.Value.Why, StringComparison.Ordinal);

        var settled = Settle([("calibrator-class", "1"), ("calibrator-edition", "IEC 60942:2017")], [("calibrator-edition", "2003")]);
        Assert.Equal(("1", "2017"), (settled["calibrator-class"].Text, settled["calibrator-edition"].Text));
    }

    [Theory]
    [InlineData("meter-class", "Type 1 IEC 651", "type 1 of IEC 651:1979")]
    [InlineData("filter-class", "IEC 61260-1:2014 1", "class 1 of IEC 61260-1:2014")]
    [InlineData("filter-class", "1", "class 1, edition not stated")]
    public void Filters_and_meters_are_stored_in_one_text(string key, string said, string stored) =>
        Assert.Equal(stored, Settle([(key, said)], [])[key].Text);

    // Texts that releases before this one took, each alone or with a year beside it, and one that was free.
    [Theory]
    [InlineData("LS", null, "class LS, edition not stated")]
    [InlineData("LS/M", null, "class LS/M of IEC 60942:2017")]
    [InlineData("LS/C", null, "class LS/C of IEC 60942:2003")]
    [InlineData("1", null, "class 1, edition not stated")]
    [InlineData("1/M", null, "class 1/M of IEC 60942:2017")]
    [InlineData("1/C", null, "class 1/C of IEC 60942:2003")]
    [InlineData("2", null, "class 2, edition not stated")]
    [InlineData("2/C", null, "class 2/C of IEC 60942:2003")]
    [InlineData("0", null, "class 0 of IEC 942:1988")]
    [InlineData("1", "2003", "class 1 of IEC 60942:2003")]
    [InlineData("1", "IEC 60942:1997", "class 1 of IEC 60942:1997")]
    [InlineData("1", "the newest", null)]
    [InlineData("1", "2018", null)]
    [InlineData("odd", null, null)]
    [InlineData(null, "2003", null)]
    public void What_earlier_releases_stored_is_read(string? stored, string? edition, string? words)
    {
        var details = new List<(string, object)>();
        if (stored is not null) details.Add(("calibrator-class", stored));
        if (edition is not null) details.Add(("calibrator-edition", edition));
        var device = FactList.RegisterOf([Make.Registered("K1", "51", "sound-calibrator", [.. details])]).Device("K1")!;

        var stated = InstrumentClasses.Of(device, DeviceField.CalibratorClass, out var wrong);

        Assert.Equal(words, stated?.Text);
        Assert.Equal(stored is not null && words is null, wrong is not null);
    }

    [Fact]
    public void Entering_and_correcting_a_device_settles_its_class()
    {
        var register = FactList.RegisterOf([Make.Registered("K1", "51", "sound-calibrator", ("calibrator-edition", "2003"))]);
        var saying = new Saying(new(Make.On("2026-06-01"), "P1", "desk", 1));

        var described = Accepted(DeviceDecisions.Describe(register, saying, "K1", Details(("calibrator-class", "1 L (1997)")), []));
        var set = Assert.IsType<DeviceDescribed>(described.Body).Set;
        Assert.Equal(("1L", "1997"), (set["calibrator-class"].Text, set["calibrator-edition"].Text));

        var entered = Accepted(DeviceDecisions.Register(
            register, saying, "sound-calibrator", "Own", "K", "52", Details(("calibrator-class", "class 1, IEC 60942:2017"))));
        Assert.Equal("2017", Assert.IsType<DeviceRegistered>(entered.Body).Details["calibrator-edition"].Text);

        var refused = DeviceDecisions.Describe(register, saying, "K1", Details(("calibrator-class", "1L, 2017")), []);
        var why = Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(refused).Why.Text;
        Assert.StartsWith("Class of IEC 60942: '1L, 2017': IEC 60942:2017 has no class 1L; allowed are", why, StringComparison.Ordinal);

        refused = DeviceDecisions.Register(register, saying, "sound-calibrator", "Own", "K", "53", Details(("calibrator-class", "gold")));
        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(refused);
    }

    [Fact]
    public void Of_a_device_without_a_class_nothing_is_said()
    {
        Assert.Null(InstrumentClasses.Of(Bare, DeviceField.CalibratorClass, out var wrong));
        Assert.Null(wrong);
        Assert.Equal(InstrumentSort.Filter, DeviceField.FilterClass.Sort);
        Assert.Contains("such as '1L'", DeviceField.CalibratorClass.Allowed, StringComparison.Ordinal);
        Assert.Contains("IEC 942:1988, IEC 60942:1997", DeviceField.CalibratorEdition.Allowed, StringComparison.Ordinal);
    }

    private static IReadOnlyDictionary<string, FieldValue> Settle((string, string)[] said, (string Key, string Text)[] stood)
    {
        var settled = InstrumentClasses.Settle(
            Details(said), f => stood.Where(s => s.Key == f.Key).Select(s => s.Text).FirstOrDefault(), out var wrong);
        Assert.Null(wrong);
        return settled;
    }

    private static Dictionary<string, FieldValue> Details(params (string Key, string Text)[] details) =>
        details.ToDictionary(d => d.Key, d => FieldValue.Of(d.Text));

    private static Fact Accepted(Result<IReadOnlyList<Fact>> result) =>
        Assert.Single(Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(result).Value);
}
