using MicRegister.Documents.Drawings;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Readiness;

namespace MicRegister.Documents.Tests;

/// <summary>Whatever stations a plan may hold, what is drawn is bounded by the paper.</summary>
public sealed class ArrayMapBoundTests
{
    // Marks of 4.4 mm on 176 × 110 mm with a bundle a cell and look: at most 41 × 26 cells of four verdicts, and six shapes for scale and
    // north.
    private const int MostShapes = (41 * 26 * 4) + 6;

    [Theory]
    [InlineData(1e-7)]
    [InlineData(0.001)]
    [InlineData(179.9)]
    public void Ten_thousand_stations_within_the_bounds_are_drawn_in_a_bounded_number_of_shapes(double spreadDeg)
    {
        const int Stations = 10_000;
        const int Seed = 4711;
        var random = new Random(Seed);
        double Within(double most) => Math.Clamp((random.NextDouble() - 0.5) * 2 * spreadDeg, -most, most);
        var campaign = Campaign(Enumerable.Range(0, Stations).Select(n => ($"S{n:00000}", Within(90), Within(180))));
        var verdicts = campaign.Stations.Keys.ToDictionary(s => s, _ => (ReadinessVerdict)random.Next(4));

        var map = ArrayMap.Of(campaign, verdicts);

        Assert.True(map.Shapes.Count <= MostShapes, $"seed {Seed}: {map.Shapes.Count} shapes");
        Assert.All(
            map.Shapes.OfType<Mark>(),
            m => Assert.True(m.X is >= 0 and <= 200 && m.Y >= 0 && m.Y <= map.HeightMm, $"seed {Seed}: {m}"));
        Assert.True(map.HeightMm is >= 20 and <= 150, $"seed {Seed}: {map.HeightMm} mm high");
        // No station is lost, and none is bundled with one that looks otherwise.
        var told = map.Shapes.OfType<Mark>().Sum(m => m.Tip.Contains(" more: ", StringComparison.Ordinal)
            ? 5 + int.Parse(
                m.Tip[(m.Tip.IndexOf(" and ", StringComparison.Ordinal) + 5)..m.Tip.IndexOf(" more: ", StringComparison.Ordinal)],
                System.Globalization.CultureInfo.InvariantCulture)
            : m.Tip.Split(',').Length);
        Assert.True(told == Stations, $"seed {Seed}: {told} stations of {Stations}");
        foreach (var (verdict, form) in new[] { (ReadinessVerdict.NotReady, MarkForm.Square), (ReadinessVerdict.Ready, MarkForm.Disc) })
        {
            Assert.All(
                map.Shapes.OfType<Mark>().Where(m => m.Form == form),
                m => Assert.True(verdicts[m.Key] == verdict, $"seed {Seed}: {m.Key} is {verdicts[m.Key]}, drawn as {form}"));
        }
    }

    [Fact]
    public void Up_to_five_hundred_stations_are_drawn_each_with_its_name()
    {
        var stations = Enumerable.Range(0, ArrayMap.MostSingle).Select(n => ($"S{n}", 50 + (n * 1e-9), 9.0));
        var map = ArrayMap.Of(Campaign(stations), new Dictionary<string, ReadinessVerdict>());

        Assert.Equal(ArrayMap.MostSingle, map.Shapes.OfType<Mark>().Count());
    }

    private static CampaignState Campaign(IEnumerable<(string Name, double Latitude, double Longitude)> stations)
    {
        var campaign = new CampaignState("C");
        return campaign with
        {
            Stations = campaign.Stations.AddRange(stations.Select(s =>
            KeyValuePair.Create(s.Name, new StationPlanned(s.Name, s.Latitude, s.Longitude, Mount.FlushPlate, null))))
        };
    }
}
