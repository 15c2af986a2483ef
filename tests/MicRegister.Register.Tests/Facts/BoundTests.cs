using System.Reflection;
using System.Text;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using MicRegister.Register.Settings;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Facts;

public sealed class BoundTests
{
    private static readonly HashSet<Type> Words = [typeof(bool), typeof(bool?)];

    [Fact]
    public void Every_number_day_text_and_list_of_every_kind_of_fact_has_a_bound()
    {
        var seen = new HashSet<Type>();
        var without = new List<string>();
        foreach (var kind in FactKinds.All) Walk(kind.Body);

        // Positions, results, lines of budgets and the like are walked too.
        Assert.True(seen.Count > FactKinds.All.Count + 8, $"only {seen.Count} records were found");
        Assert.True(without.Count == 0, "without a bound: " + string.Join(", ", without));

        void Walk(Type type)
        {
            if (!seen.Add(type)) return;
            foreach (var member in type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.SetMethod is not null))
            {
                var inner = Nullable.GetUnderlyingType(member.PropertyType) ?? member.PropertyType;
                var item = inner != typeof(string) && inner.IsGenericType ? inner.GetGenericArguments()[^1] : inner;
                if (item.Namespace?.StartsWith("MicRegister", StringComparison.Ordinal) == true && item
                    is { IsEnum: false, IsValueType: false }) Walk(item);
                if (inner.IsEnum || Words.Contains(inner) || (inner == item && seen.Contains(inner))) continue;
                var bound = Bound.Of(member.Name, member.PropertyType);
                var isBound = bound is not null && (inner == item || bound.Items > 0)
                    && (item == typeof(string) ? bound.Letters > 0 : item == typeof(DateOnly) ? bound is { First: not null, Last: not null }
                    : seen.Contains(item) || item.IsEnum || bound.Least < bound.Greatest);
                if (!isBound) without.Add($"{type.Name}.{member.Name}");
            }
        }
    }

    public static TheoryData<string, FactBody> Beyond => new()
    {
        { "latitudeDeg '90.5': allowed is a number from -90 to 90.", new StationPlanned("S01", 90.5, 9, Mount.Pole, null) },
        { "longitudeDeg '-1E+300': allowed is a number from -180 to 180.", new StationPlanned("S01", 50, -1e300, Mount.Pole, null) },
        { "position.latitudeDeg '1E+300': allowed is a number from -90 to 90.",
            new ChainPlaced("S01", ["A"], [], null, null, new(1e300, 0, 5), null, null, [], null) },
        { "station '1001 characters': allowed is a text of at most 1000 characters.", new ChainTakenIn(new('s', 1001), [], [], null) },
        { "remark '20001 characters': allowed is a text of at most 20000 characters.", new ChainTakenIn("S01", [], [], new('r', 20_001)) },
        { "concerns '1001 items': allowed is at most 1000 items.", new ChainPlaced("S01", ["A"], [], null, null, null, null, null,
            [.. Enumerable.Repeat("c", 1001)], null) },
        { "devices[1] '1001 characters': allowed is a text of at most 1000 characters.", new ChainPlanned("S01", ["A", new('d', 1001)]) },
        { "chains[1].levelDb '1000.5': allowed is a number from -1000 to 1000.",
            new ChainsCompared("fly-over", null, [new("S01", ["A"], 60, 0), new("S02", ["B"], 1000.5, 0)], null, null) },
        { "humidityPercent '-1': allowed is a number from 0 to 200.", new WeatherNoted(null, null, null, -1, null) },
        { "laboratoryDays '-1': allowed is a number from 0 to 36500.", new SettingsChosen(-1, 4, 2, 1) },
        { "set.size-mm '1E+300': allowed is a number from -1000000000000 to 1000000000000.",
            new DeviceDescribed(Make.Details(("size-mm", 1e300)), []) },
        { "firstDay '2201-01-01': allowed is a day from 1950-01-01 to 2200-12-31.", Plan() with { FirstDay = new(2201, 1, 1) } },
        { "permittedLosses '2000000000': allowed is a number from 0 to 1000000000.", Plan() with { PermittedLosses = 2_000_000_000 } },
        { "recordings[0].channels[0] '-1': allowed is a number from 0 to 1000000000.",
            new EventHappened("F1", "2026-05-04T10:11:12.000Z", "2026-05-04T10:12:12.000Z", EventKind.FlyOver, null,
            [new("a.wav", 1, "x", null, null, 1, [-1])], null) },
    };

    [Theory]
    [MemberData(nameof(Beyond))]
    public void What_is_beyond_its_bound_is_not_stated_and_the_field_is_named(string why, FactBody body)
    {
        var refusal = Assert.Throws<BeyondBoundException>(() => Make.Of(body, "2026-05-04", "campaign:C"));

        Assert.Equal(why, refusal.Message);
        Assert.Equal(why.Split(' ')[0], refusal.Breach.Field);
    }

    [Fact]
    public void What_is_just_within_is_stated_and_reads_back()
    {
        FactBody[] bodies =
        [
            new StationPlanned(new('s', 1000), 90, -180, Mount.Pole, null),
            new ChainPlaced("S01", ["A"], [], 1e6, null, new(-90, 180, 1e8), 1e6, null, [], new('r', 20_000)),
            new KitPlanned(KitPurpose.Spare, [.. Enumerable.Repeat("A", 10_000)]), Plan() with { LastDay = new(2200, 12, 31) },
        ];
        foreach (var body in bodies)
            Assert.IsType(body.GetType(), FactText.ReadCanonical(Make.Of(body, "2026-05-04", "campaign:C").Bytes).Body);
    }

    [Fact]
    public void What_comes_from_elsewhere_beyond_its_bound_is_kept_passed_on_found_and_has_no_effect()
    {
        var placed = new ChainPlaced("S01", ["A"], [], null, null, new(50.5, 9.5, 5), null, null, [], null);
        var good = Make.Of(placed, "2026-05-04", "campaign:C", "device:A");
        var bytes = Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(good.Bytes.Span).Replace("50.5", "950.5", StringComparison.Ordinal));

        var fact = FactText.ReadCanonical(bytes);

        Assert.Equal("the body of chain-placed does not fit: position.latitudeDeg '950.5': allowed is a number from -90 to 90.",
            Assert.IsType<UnreadBody>(fact.Body).Why);
        Assert.Equal(bytes, fact.Bytes.ToArray());
        var log = new List<Fact> { Make.Of(Plan(), "2026-05-01", "campaign:C"), fact };
        var register = FactList.RegisterOf(log);
        Assert.Empty(ArrayDeployment.Of(register, "C").Placements);
        var finding = Assert.Single(register.Findings(new(2026, 5, 5)), f => f.Rule == "unread");
        Assert.Contains("position.latitudeDeg '950.5'", finding.Text, StringComparison.Ordinal);
        Assert.Equal([fact.Id.ToString()], finding.Facts);
        // It stands after a start from the image too, until a person settles it.
        using var image = new MemoryStream();
        RegisterImage.Write(register, image);
        image.Position = 0;
        Assert.Single(RegisterImage.Read(image, register.Source).Findings(new(2026, 5, 5)), f => f.Rule == "unread");
        Assert.DoesNotContain(FactList.RegisterOf([.. log, Make.Annulling(fact)]).Findings(new(2026, 5, 5)), f => f.Rule == "unread");
    }

    [Fact]
    public void Many_of_one_client_are_one_finding()
    {
        var good = Make.Of(new WeatherNoted(null, null, null, 50.5, null), "2026-05-04", "campaign:C");
        List<Fact> log = [.. Enumerable.Range(0, 300).Select(n => FactText.ReadCanonical(Encoding.UTF8.GetBytes(
            Encoding.UTF8.GetString(good.Bytes.Span)
                .Replace("50.5", "950.5", StringComparison.Ordinal)
                .Replace(good.Id.ToString(), FactId.Create(n, new byte[10]).ToString(), StringComparison.Ordinal))))];

        var finding = Assert.Single(FactList.RegisterOf(log).Findings(new(2026, 5, 5)), f => f.Rule == "unread");

        Assert.StartsWith("300 facts of weather-noted from desk", finding.Text, StringComparison.Ordinal);
        Assert.Equal(20, finding.Facts.Count);
    }

    private static CampaignPlanned Plan() => new(
        "Campaign", new(2026, 5, 1), new(2026, 5, 9), "UTC", [], "Site", 100, SourceClass.Jet, 50, 10_000,
        null, null, "small-unmanned-flush", 0, null);
}
