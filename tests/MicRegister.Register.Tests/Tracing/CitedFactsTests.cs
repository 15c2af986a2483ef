using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>A trace names each fact that its figures were worked out from.</summary>
public sealed class CitedFactsTests
{
    private static readonly Fact[] Flight = Heath.Flight();

    [Fact]
    public void A_doubt_behind_both_checks_names_both_certificates_and_both_checks()
    {
        // 0.6 dB above that of January, a month after the flight.
        var found = Make.Of(Make.Issued(94.60, 0.1, "level", "dB"), "2026-07-02", "device:K1");
        var term = Assert.Single(Heath.One(Heath.With([.. Flight, found])).Applied!.Terms, t => t.Name == "what is in doubt");

        Assert.Equal(
            $"fact {found.Id} against fact {Heath.FirstCalibrator.Id}, behind fact {Flight[1].Id}, fact {Flight[3].Id}", term.Source);
        // Nothing is added; half of it for each check, and both are moved alike: 0.6/√3.
        Assert.Equal(0, term.ValueDb);
        Assert.Equal(0.6 / Math.Sqrt(3), term.StandardDb, 1e-9);
    }

    [Fact]
    public void A_certificate_that_stands_in_the_place_of_a_withdrawn_one_is_named_with_it()
    {
        var older = Make.Of(Make.Issued(93.80, 0.1, "level", "dB"), "2025-01-05", "device:K1");
        var register = Heath.With([.. Flight, older, Make.Annulling(Heath.FirstCalibrator)]);
        var term = Assert.Single(Heath.One(register).Applied!.Terms, t => t.Name == "what is in doubt");

        Assert.StartsWith($"fact {Heath.FirstCalibrator.Id} against fact {older.Id}, ", term.Source, StringComparison.Ordinal);
        Assert.Equal(0.2 / Math.Sqrt(3), term.StandardDb, 1e-9);
    }

    [Fact]
    public void What_a_check_was_held_against_is_named_beside_what_is_in_force()
    {
        var late = Make.Certificate("M1", "2026-05-20", -38.50);
        var links = Heath.One(Heath.With([.. Flight, late])).Links.Where(l => l.Device.Id == "M1").ToList();

        Assert.Equal([late.Id, Heath.FirstMicrophone.Id], links.Select(l => l.Certificate!.Fact));
        Assert.Equal(late.Id, links[1].InForce!.Fact);
        Assert.Equal(-0.44, links[1].DifferenceDb!.Value, 1e-9);
    }

    [Fact]
    public void What_a_calibrator_was_certified_by_is_named_though_its_registration_was_taken_back()
    {
        var registered = Heath.Base.Single(f => f.Body is DeviceRegistered && f.Subjects[0] == "device:K1");
        var links = Heath.One(Heath.With([.. Flight, Make.Annulling(registered)])).Links;

        Assert.Contains(links, l => l.Certificate?.Fact == Heath.FirstCalibrator.Id);
    }

    [Fact]
    public void Of_a_logger_the_reading_is_named()
    {
        var logged = Make.Of(
            new WeatherLogged(
                "log.csv", new string('a', 64),
                [
                    new("2026-06-02T09:50:00.000Z", null, null, null, 20, null, null),
                    new("2026-06-02T10:05:00.000Z", null, null, null, 27, null, null),
                ],
                null),
            "2026-06-03", Subject.Campaign(Heath.C));
        var flight = Heath.Flight(airBefore: new(null, 22, null), airAfter: new(null, 22, null));
        var term = Heath.One(Heath.With([Heath.Described("M1", ("temperature-db-per-k", -0.02)), .. flight, logged])).Applied!.Terms[^1];

        Assert.Equal($"weather of E1: temperature by fact {logged.Id}, read 2026-06-02T10:05:00.000Z", term.Source);
        Assert.Equal(-0.02 * (27 - 22), term.ValueDb, 1e-9);
    }
}
