using MicRegister.Metrology.Responses;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Corrections by band of a chain on a pole with a windscreen. Expected figures by hand algebra from invented curves; sensitivities hold at 250 Hz.</summary>
public sealed class BandCorrectionTests
{
    private const double Db = 1e-6;
    private static readonly string Front = new('a', 64), Side = new('b', 64), Screen = new('c', 64), Table = new('d', 64), Print = new('e', 64);

    // Relative to 250 Hz: +1.2 dB at 10 kHz in front, -2.8 dB from the side.
    private static readonly Dictionary<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>> Files = new()
    {
        [Front] = [(null, new([new(250, 0.1, 0.1), new(10_000, 1.3, 0.3)]))],
        [Side] = [(null, new([new(250, 0.1, 0.1), new(10_000, -2.7, 0.5)]))],
        [Screen] = [(null, new([new(20, 0, 0.2), new(10_000, 0.6, 0.2)]))],
        [Table] = [(0, new([new(20, 0, null), new(10_000, 2, null)])), (60, new([new(20, 0, null), new(10_000, -1, null)]))],
    };

    private static readonly Fact[] Curves =
    [
        Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Front, Field = "free-field" }, "2026-03-05", "device:M3"),
        Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Side, Field = "free-field", AngleDeg = 60 }, "2026-03-05", 1, "device:M3"),
        Make.Registered("W1", "701", "windscreen", ("highest-hz", 20_000)),
        Make.Of(Make.Issued(0.6, 0.2, "insertion-loss", "dB") with { Curve = Screen }, "2026-03-06", "device:W1"),
    ];

    [Fact]
    public void From_a_stated_angle_each_curve_acts_with_its_sign_and_the_rest_is_uncertainty()
    {
        var bands = Of(Heath.Incidence(30, halfWidthDeg: 15));

        Assert.Equal((30, 15, 250), (bands.AngleDeg, bands.HalfWidthDeg, bands.ReferenceHz));
        var top = bands.Bands[^1];
        Assert.Equal(10_000, top.Band.NominalHz, Db);
        // Half way from +1.2 to -2.8 dB is -0.8 dB, to be taken off; the windscreen takes 0.6 dB away; a pole comes to nothing.
        Assert.Equal([("response of Microphone Model 103", 0.8), ("insertion loss of Windscreen or rain protection Model 701", 0.6)], top.Terms.Select(t => (t.Name, Math.Round(t.ValueDb, 6))));
        Assert.Equal(1.4, top.TotalDb!.Value, Db);
        // The chain's 0.0590198; ½ · 0.15 and ½ · 0.25 of two certificates; 0.1 of the windscreen; 15° are 1 dB of the 4 dB in 60°, over √3.
        Assert.Equal(0.6066848, top.StandardDb!.Value, Db); // √(0.0034833 + 0.005625 + 0.015625 + 0.01 + 0.3333333)
        Assert.DoesNotContain(bands.Cautions, c => !c.StartsWith("Bands without a sum", StringComparison.Ordinal));
    }

    [Fact]
    public void A_band_that_a_curve_does_not_reach_stays_open()
    {
        var bands = Of(Heath.Incidence(30));

        Assert.Equal([200.0, 250.0], [bands.Bands.Last(b => b.TotalDb is null).Band.NominalHz, Math.Round(bands.Bands.First(b => b.TotalDb is not null).Band.NominalHz, 6)]);
        Assert.All(bands.Bands.Where(b => b.TotalDb is null), b => Assert.Null(b.ExpandedDb));
        Assert.Contains(bands.Cautions, c => c.StartsWith("Bands without a sum lie outside", StringComparison.Ordinal));
        // 251.19 Hz, the exact middle, lies 0.0013 of the way from 250 Hz to 10 kHz, where it comes to +0.8 dB.
        Assert.Equal(0.001029, bands.Bands.First(b => b.TotalDb is not null).Terms[0].ValueDb, 1e-5);
    }

    [Fact]
    public void Without_an_angle_the_middle_of_all_curves_is_taken_and_it_is_told()
    {
        var bands = Of();
        var top = bands.Bands[^1];

        Assert.Null(bands.AngleDeg);
        Assert.Equal(0.8, top.Terms[0].ValueDb, Db);
        Assert.DoesNotContain(bands.Cautions, c => c.Contains("holds for", StringComparison.Ordinal));
        // As above, with 2 dB over √3 for the direction.
        Assert.Equal(1.1697, top.StandardDb!.Value, 1e-4); // √(0.0034833 + 0.005625 + 0.015625 + 0.01 + 1.3333333)
        Assert.Contains(bands.Cautions, c => c.StartsWith("No angle of incidence is stated", StringComparison.Ordinal));
    }

    [Fact]
    public void One_direction_alone_is_told_where_nobody_stated_the_angle()
    {
        var bands = Of([Make.Annulling(Curves[1])], null);

        Assert.Equal(-1.2, bands.Bands[^1].Terms[0].ValueDb, Db);
        Assert.Contains(bands.Cautions, c => c == "No angle of incidence is stated: the curve of Microphone Model 103 holds for 0°, and what another direction makes of it is not part of the uncertainty.");
    }

    [Fact]
    public void Curves_of_several_angles_are_relative_to_one_figure()
    {
        // 0.4 dB less from the side at the frequency of the sensitivity already: that stays.
        var table = new string('f', 64);
        Files[table] = [(0, new([new(20, 0, 0.1), new(250, 0, 0.1), new(10_000, 0, 0.1)])), (30, new([new(20, -0.4, 0.1), new(250, -0.4, 0.1), new(10_000, -6, 0.1)]))];
        var newer = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = table, Field = "free-field" }, "2026-04-01", "device:M3");

        Assert.Equal(6, Of([newer], 30).Bands[^1].Terms[0].ValueDb, Db);
    }

    [Theory]
    [InlineData(60, 2.8)]
    [InlineData(0, -1.2)]
    public void An_angle_that_is_asked_for_stands_in_for_the_stated_one(double angle, double db) => Assert.Equal(db, Of([Heath.Incidence(30)], angle).Bands[^1].Terms[0].ValueDb, Db);

    [Fact]
    public void What_is_said_of_station_and_event_comes_before_the_rest_and_the_last_word_counts()
    {
        Fact[] said = [Heath.Incidence(10), Heath.Incidence(20, "S3", counter: 1), Heath.Incidence(30, @event: "E1", counter: 2), Heath.Incidence(40, "S3", "E1", 3), Heath.Incidence(50, "S1", "E1", 4), Heath.Incidence(5, @event: "E2", counter: 5)];
        double? Angle(params Fact[] facts) => Of([.. facts], null).AngleDeg;

        Assert.Equal([10, 20, 30, 40], [Angle(said[0]), Angle(said[..2]), Angle(said[..3]), Angle(said)]);
        Assert.Equal(45, Angle([.. said, Heath.Incidence(45, "S3", "E1", 9)]));
        Assert.Equal(30, Angle([.. said, Make.Annulling(said[3])]));
    }

    [Fact]
    public void A_newer_table_by_angle_takes_the_place_of_older_curves_at_its_angles()
    {
        var newer = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Table, Field = "free-field" }, "2026-04-01", "device:M3");
        var bands = Of([newer, Heath.Incidence(60)]);

        // -1 dB at 60°, less what the front reads at 250 Hz: log(12.5) / log(500) = 0.406418 of 2 dB.
        Assert.Equal(1.812836, bands.Bands[^1].Terms[0].ValueDb, 1e-4);
        Assert.Equal("it states no uncertainty", bands.Bands[^1].Terms[0].Remark);
    }

    [Fact]
    public void What_was_certified_after_the_event_or_annulled_does_not_act()
    {
        var later = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Table, Field = "free-field" }, "2026-06-03", "device:M3");

        Assert.Equal(-1.2, Of([later, Heath.Incidence(0)]).Bands[^1].Terms[0].ValueDb, Db);
        Assert.Equal(-1.2, Of([Make.Annulling(Curves[1]), Heath.Incidence(20)]).Bands[^1].Terms[0].ValueDb, Db); // the front alone holds for 30°
        Assert.Null(Of([Make.Annulling(Curves[1]), Heath.Incidence(40)]).Bands[^1].TotalDb);
    }

    [Fact]
    public void A_curve_that_is_not_here_leaves_all_bands_open_and_says_so()
    {
        var bands = Of([Make.Of(Make.Issued(0.5, 0.2, "insertion-loss", "dB") with { Curve = Print }, "2026-04-02", "device:W1"), Heath.Incidence(0)]);

        Assert.All(bands.Bands, b => Assert.Null(b.TotalDb));
        Assert.Contains(bands.Cautions, c => c == "The curve of Windscreen or rain protection Model 701 of 2026-04-02 is not here or holds no figures: its bands stay open.");
    }

    [Theory]
    [InlineData(true, 0.4, "its greatest insertion loss of 0.40 dB is part of the uncertainty")] // as its certificate states
    [InlineData(false, 0.9, "its greatest insertion loss of 0.90 dB is part of the uncertainty")] // as its details state
    public void A_windscreen_without_a_curve_widens_the_uncertainty_by_its_one_figure(bool certified, double db, string caution)
    {
        Fact[] facts =
        [
            Make.Annulling(Curves[3]), Heath.Incidence(0), Make.Of(new DeviceDescribed(Make.Details(("insertion-loss-db", 0.9)), []), "2026-01-02", "device:W1"),
            .. certified ? new[] { Make.Certificate("W1", "2026-03-07", -0.4, 0.1, "insertion-loss", "dB") } : [],
        ];
        var bands = Of([.. facts]);

        // The chain's 0.0590198, 0.15 of the curve in front, the figure over √3.
        Assert.Equal(Math.Sqrt(0.00348333 + 0.0225 + (db * db / 3)), bands.Bands[^1].StandardDb!.Value, Db);
        Assert.Contains(bands.Cautions, c => c.Contains(caution, StringComparison.Ordinal));
    }

    [Fact]
    public void In_a_plate_a_response_of_the_free_field_does_not_act_and_a_set_has_one_curve()
    {
        var freeField = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Front, Field = "free-field" }, "2026-03-05", "device:M1");
        var flat = Bands(Heath.With([.. Heath.Flight(), freeField]), "S1");
        Assert.Empty(flat.Bands[^1].Terms);
        Assert.Equal(-6.0206, flat.Bands[^1].TotalDb!.Value, 1e-5);
        Assert.Contains(flat.Cautions, c => c == "Microphone Model 101 has a response in free-field alone, which is not how it stood: it is taken as flat.");

        var together = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Front, Field = "pressure" }, "2026-03-06", "device:M1", "device:P1");
        var set = Bands(Heath.With([.. Heath.Flight(), freeField, together]), "S1");
        Assert.Equal(-1.2, Assert.Single(set.Bands[^1].Terms).ValueDb, Db);
        Assert.Equal(-7.2206, set.Bands[^1].TotalDb!.Value, 1e-5);

        // Not through the preamplifier either: the set's curve is that of its microphone, in its sound field and while they stand together.
        var outside = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Front, Field = "free-field" }, "2026-03-06", "device:M1", "device:P1");
        Assert.Empty(Bands(Heath.With([.. Heath.Flight(), outside]), "S1").Bands[^1].Terms);
        var parted = Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Front, Field = "pressure" }, "2026-03-06", "device:M9", "device:P1");
        Assert.Empty(Bands(Heath.With([.. Heath.Flight(), parted]), "S1").Bands[^1].Terms);
        Assert.Contains(Bands(Heath.With([.. Heath.Flight(), Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = Front, Field = "pressure" }, "2026-03-06", "device:M1", "device:P9")]), "S1").Cautions, c => c.StartsWith("The response of Microphone Model 101 was measured in a set that did not stand together", StringComparison.Ordinal));
        Assert.DoesNotContain(set.Cautions, c => c.Contains("taken as flat", StringComparison.Ordinal));
    }

    [Fact]
    public void Bands_beyond_the_mount_are_marked()
    {
        var register = Heath.With(Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, null), "2026-05-01", 4, Subject.Campaign(Heath.C)), Heath.Placed("S4", "06-02 06:00", Heath.Chain("S1")), Heath.Event("E1", "06-02 10:00", "06-02 10:01"));
        var bands = Bands(register, "S4");

        // 7 mm lose 1 dB at 3642 Hz.
        Assert.Equal([3150.0, 4000.0], [Math.Round(bands.Bands.Last(b => b.IsWithinMount).Band.NominalHz, 6), Math.Round(bands.Bands.First(b => !b.IsWithinMount).Band.NominalHz, 6)]);
        Assert.Contains(bands.Cautions, c => c.StartsWith("In bands that are marked the mount", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(-1, null, "Angle of incidence '-1': allowed is a number from 0 to 180")]
    [InlineData(181, null, "Angle of incidence '181'")]
    [InlineData(30, 91.0, "Half-width '91': allowed is a number from 0 to 90")]
    public void A_direction_that_cannot_be_is_refused(double angle, double? half, string says)
    {
        var saying = new Saying(new(Heath.At("06-05 10:00"), "P1", "desk", 1));
        var answer = IncidenceBook.State(Heath.With(Heath.Flight()), saying, Heath.C, "E1", new("S1", angle, half, "track"));

        Assert.Contains(says, Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(answer).Why.Text, StringComparison.Ordinal);
        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(IncidenceBook.State(Heath.With(Heath.Flight()), saying, Heath.C, "E1", new("S1", 30, 90, "track")));
        Assert.Equal(RejectionSort.NotFound, Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(IncidenceBook.State(Heath.With(), saying, Heath.C, "E9", new(null, 30, null, "track"))).Why.Sort);
        Assert.Contains("no such station", Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(IncidenceBook.State(Heath.With(), saying, Heath.C, null, new("S9", 30, null, "track"))).Why.Text, StringComparison.Ordinal);
        Assert.Equal(RejectionSort.Invalid, Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(IncidenceBook.State(Heath.With(), saying, Heath.C, null, new(null, 30, null, " "))).Why.Sort);
    }

    private static BandCorrections Of(params Fact[] facts) => Of(facts, null);

    private static BandCorrections Of(Fact[] facts, double? angle)
    {
        string[] parts = [.. Heath.Chain("S3"), "W1"];
        Fact[] flight =
        [
            Heath.Placed("S3", "06-02 06:00", parts), Heath.Checked("S3", "06-02 06:30", CheckMoment.Before, -38.11), Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Heath.Checked("S3", "06-02 16:00", CheckMoment.After, -38.19),
        ];
        return Bands(Heath.With([.. Curves, .. flight, .. facts]), "S3", angle);
    }

    private static BandCorrections Bands(Register register, string station, double? angle = null) =>
        BandCorrections.Of(Heath.One(register, station: station), register.Campaign(Heath.C)!.Plan, sha => Files.GetValueOrDefault(sha), angle)!;
}
