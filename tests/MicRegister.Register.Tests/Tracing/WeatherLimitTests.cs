using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>The weather at an event from 10:00 to 10:01, held against limits of a profile.</summary>
public sealed class WeatherLimitTests
{
    // 12 kt of 1852 m an hour.
    private const double TwelveKnots = 12 * 1852 / 3600.0;

    [Theory]
    [InlineData("06-02 10:00", 25.0, null, "")] // equality passes
    [InlineData("06-02 10:00", 25.1, TraceVerdict.NotValid, "During it the temperature was 25.1 °C; the profile asks for at most 25 °C.")]
    [InlineData("06-02 10:01", 25.1, TraceVerdict.NotValid, "During it the temperature was 25.1 °C")]
    [InlineData("06-02 10:00", -10.0, null, "")]
    [InlineData("06-02 10:00", -10.1, TraceVerdict.NotValid, "During it the temperature was −10.1 °C; the profile asks for at least −10 °C.")]
    [InlineData("06-02 09:30", 25.1, TraceVerdict.Doubtful, "30 min before it, where the nearest reading was taken, the temperature was 25.1 °C;")]
    [InlineData("06-02 10:31", 25.1, TraceVerdict.Doubtful, "30 min after it, where")]
    [InlineData("06-02 09:29", 20.0, TraceVerdict.Doubtful, "What the temperature was at it is not known: nothing tells it within 30 min, and the profile limits it.")]
    [InlineData("06-02 10:32", 20.0, TraceVerdict.Doubtful, "What the temperature was at it is not known")]
    public void What_was_read_during_it_decides_and_what_was_read_near_it_makes_doubtful(string at, double celsius, TraceVerdict? weight, string says)
    {
        var reasons = Reasons(
            [(LimitKey.TemperatureMostC, 25), (LimitKey.TemperatureLeastC, -10), (LimitKey.WeatherMinutes, 30)], Heath.Weather(at, celsius));

        if (weight is null) Assert.Empty(reasons);
        else Assert.Contains(reasons, r => r.Weight == weight && r.Text.StartsWith(says, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("06-02 07:00", true)] // three hours, without a limit of its own
    [InlineData("06-02 06:59", false)]
    public void Without_minutes_of_the_profile_three_hours_are_near_enough(string at, bool isKnown)
    {
        var reasons = Reasons([(LimitKey.TemperatureMostC, 25)], Heath.Weather(at, 20));

        Assert.Equal(isKnown, reasons.Count == 0);
        if (!isKnown) Assert.Contains("within three hours", Assert.Single(reasons).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_readings_of_the_event_itself_exist_the_worst_of_them_counts_and_none_beside_it()
    {
        (string, double)[] limits = [(LimitKey.TemperatureMostC, 25)];

        Assert.Empty(Reasons(limits, Heath.Weather("06-02 09:59", 40), Heath.Weather("06-02 10:00", 20), Heath.Weather("06-02 10:02", 40)));
        Assert.Single(Reasons(limits, Heath.Weather("06-02 10:00", 20), Heath.Weather("06-02 10:01", 26)));
        // Of readings beside it the nearer one: 2 minutes before against 3 after.
        Assert.Empty(Reasons(limits, Heath.Weather("06-02 09:58", 20), Heath.Weather("06-02 10:04", 40)));
        Assert.Single(Reasons(limits, Heath.Weather("06-02 09:56", 20), Heath.Weather("06-02 10:04", 40)));
    }

    [Fact]
    public void What_nobody_read_is_said_in_one_sentence()
    {
        var reason = Assert.Single(Reasons(
            [(LimitKey.WindMs, 6), (LimitKey.GustMs, 7), (LimitKey.HumidityLeastPercent, 20), (LimitKey.HumidityMostPercent, 95)],
            Heath.Weather("06-02 10:00", 20)));

        Assert.Equal(TraceVerdict.Doubtful, reason.Weight);
        Assert.StartsWith("What the wind, the greatest gust, the humidity was at it is not known", reason.Text, StringComparison.Ordinal);
        Assert.Equal("profile " + Heath.Rules, reason.Source);
    }

    [Fact]
    public void A_profile_without_limits_of_the_weather_asks_for_none() => Assert.Empty(Reasons([], Heath.Weather("06-02 10:00", 60)));

    [Theory]
    [InlineData(LimitKey.WindMs, 6.17, null, false)] // 12 kt are 6.1733 m/s
    [InlineData(LimitKey.WindMs, TwelveKnots, null, false)]
    [InlineData(LimitKey.WindMs, 6.18, null, true)]
    [InlineData(LimitKey.GustMs, 5.0, 6.17, false)]
    [InlineData(LimitKey.GustMs, 5.0, 6.18, true)]
    public void Means_and_gusts_have_limits_of_their_own(string key, double windMs, double? gustMs, bool isOutside)
    {
        var reasons = Reasons([(key, TwelveKnots)], Logged([new("2026-06-02T10:00:00.000Z", null, windMs, gustMs, null, null, null)]));

        Assert.Equal(isOutside, reasons.Any(r => r.Weight == TraceVerdict.NotValid));
        Assert.Equal(isOutside ? 1 : 0, reasons.Count);
    }

    [Theory]
    [InlineData(90.0, 6.0, 90.0, null)] // along the track
    [InlineData(270.0, 6.0, 90.0, null)]
    [InlineData(0.0, 6.0, 90.0, TraceVerdict.NotValid)] // across it
    [InlineData(120.0, 6.0, 90.0, null)] // 6 · sin 30° = 3
    [InlineData(121.0, 6.0, 90.0, TraceVerdict.NotValid)] // 6 · sin 31° = 3.09
    [InlineData(null, 6.0, 90.0, TraceVerdict.Doubtful)] // no direction
    [InlineData(0.0, 6.0, null, TraceVerdict.Doubtful)] // no track
    [InlineData(null, 3.0, null, null)] // too weak in any direction
    public void Wind_across_the_track_needs_both_directions_where_it_is_strong_enough(
        double? from, double windMs, double? track, TraceVerdict? weight)
    {
        var plan = (CampaignPlanned)Heath.Planned().Body;
        var planned = Make.Of(plan with { TrackDeg = track }, "2026-05-02", 3, Subject.Campaign(Heath.C));
        var reasons = Reasons([(LimitKey.CrosswindMs, 3)], planned, Logged([new("2026-06-02T10:00:00.000Z", from, windMs, null, null, null, null)]));

        Assert.Equal(weight, reasons.Count == 0 ? null : Assert.Single(reasons).Weight);
    }

    [Fact]
    public void A_strong_reading_without_a_direction_is_not_hidden_by_a_weak_one()
    {
        var reasons = Reasons([(LimitKey.CrosswindMs, 3)], Logged(
        [
            new("2026-06-02T10:00:00.000Z", null, 1, null, null, null, null), new("2026-06-02T10:00:30.000Z", null, 6, null, null, null, null),
        ]));

        Assert.Contains("the wind across the track", Assert.Single(reasons).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_logger_read_also_moves_the_level_by_the_air()
    {
        LoggedWeather At(string time, double celsius) => new($"2026-06-02T{time}:00.000Z", null, null, null, celsius, null, null);
        var follows = Heath.Described("M1", ("temperature-db-per-k", -0.02));
        var register = Heath.With([follows, .. Heath.Flight(), Logged([At("06:30", 20), At("10:00", 27), At("16:00", 24)])]);

        Assert.Equal(-38.15 - (0.02 * (27 - 22)), Heath.One(register).Applied!.VoltsDb, 1e-6);
    }

    [Fact]
    public void The_built_in_profiles_have_the_windows_that_were_seen_and_say_where()
    {
        var transport = BuiltInProfiles.Find("transport-1200mm")!;

        Assert.Equal(12 * 0.5144444444, transport.Value(LimitKey.WindMs)!.Value, 1e-9);
        Assert.Equal(15 * 0.5144444444, transport.Value(LimitKey.GustMs)!.Value, 1e-8);
        Assert.Equal(7 * 0.5144444444, transport.Value(LimitKey.CrosswindMs)!.Value, 1e-9);
        Assert.Equal(10 * 0.5144444444, transport.Value(LimitKey.CrosswindGustMs)!.Value, 1e-9);
        Assert.Equal((-10, 35, 20, 95, 30), (
            transport.Value(LimitKey.TemperatureLeastC), transport.Value(LimitKey.TemperatureMostC),
            transport.Value(LimitKey.HumidityLeastPercent), transport.Value(LimitKey.HumidityMostPercent), transport.Value(LimitKey.WeatherMinutes)));
        Assert.All(
            transport.Written.Limits.Where(l => l.Source.Contains("A36.2.2", StringComparison.Ordinal)),
            l => Assert.StartsWith("seen", l.Certainty, StringComparison.Ordinal));
        Assert.Equal(10 * 0.5144444444, BuiltInProfiles.Find("small-propeller-inverted")!.Value(LimitKey.WindMs)!.Value, 1e-9);
    }

    private static Fact Logged(LoggedWeather[] readings) => FactText.WriteDerived(
        new(Make.On(readings[0].At), "P1", "desk-1.ABCD", 9), new WeatherLogged("mast.csv", new string('a', 64), readings, null),
        [Subject.Campaign(Heath.C)]);

    private static List<TraceReason> Reasons((string, double)[] limits, params Fact[] facts)
    {
        var chain = Assert.Single(Tracer.Chains(Tracer.ContextOf(Heath.With([Heath.Written(limits), .. Heath.Flight(), .. facts]), "E1")!, "S1"));
        return [.. WeatherQuestions.WeatherLimits(chain)];
    }
}
