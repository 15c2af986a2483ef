using System.Globalization;
using Bunit;
using MicRegister.Metrology.Quantities;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Devices;
using MicRegister.Server.Pages.Fleet;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Figures with their units, and times, as pages show them.</summary>
public sealed class FiguresOnPagesTests : PageContext
{
    [Fact]
    public async Task A_barometer_reads_in_kilopascals_in_the_fleet_and_beside_others()
    {
        await State("barometer", "static-pressure", (101.29, "kPa", 0.03, "kPa", "2024-03-01"), (101.31, "kPa", 0.03, "kPa", "2026-03-01"));

        var row = FleetRow.Of(Live.Now.Device("A1")!);
        Assert.Equal("101.31 kPa ± 0.03 kPa", QuantityText.With(row.Level!.Value, row.Uncertainty, row.Unit!));
        var line = Documents.Drawings.HistoryLine.Of(Live.Now.Device("A1")!)!;
        Assert.EndsWith("+0.02 kPa in all", line.Title, StringComparison.Ordinal);
        Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("compare?d=A1&d=A1");
        var compared = Render<ComparePage>();
        Assert.Contains(compared.FindAll("td"), d => d.TextContent == "101.31 kPa");
        Assert.DoesNotContain("dB", compared.Find("tbody").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_microphone_reads_in_decibels_in_the_fleet()
    {
        await State("microphone", "sensitivity", (-26.0206, "dB re 1 V/Pa", 0.12, "dB", "2026-03-01"));

        var row = FleetRow.Of(Live.Now.Device("A1")!);
        Assert.Equal("−26.02 dB ± 0.12 dB", QuantityText.With(row.Level!.Value, row.Uncertainty, row.Unit!));
    }

    // 12.000 on the paper is stored as 12: the usual digits of the unit are shown, and every digit that was stated.
    [Fact]
    public async Task A_certificate_shows_every_digit_that_was_stated_and_the_usual_ones()
    {
        await State("microphone", "sensitivity", (12, "mV/Pa", 0.1, "dB", "2024-03-01"), (0.0123456, "V/Pa", 0.7, "%", "2026-03-01"));

        var list = Render<CertificateList>(p => p.Add(l => l.Device, Live.Now.Device("A1")!));
        var cells = list.FindAll("td").Select(d => d.TextContent).ToList();

        Assert.Contains("12.000 mV/Pa", cells);
        Assert.Contains("0.10 dB, k = 2", cells);
        Assert.Contains("0.0123456 V/Pa", cells);
        Assert.Contains("0.7 %, k = 2", cells);
    }

    [Fact]
    public async Task What_was_just_said_shows_when_and_so_does_what_names_its_author()
    {
        var answer = await Desk.Submit(Speaker.Here("Ada"), "desk", r =>
            DeviceDecisions.Register(r, Desk.Say("Ada"), "microphone", null, null, "1", new Dictionary<string, FieldValue>()));
        Assert.IsType<Result<IReadOnlyList<AppendOutcome>>.Accepted>(answer);

        var list = Render<MicRegister.Server.Pages.Journal.FactList>();

        var when = list.FindAll("tbody tr").Select(r => r.Children[0].TextContent).ToList();
        Assert.Equal(2, when.Count);
        Assert.DoesNotContain("not known", when);
        Assert.Contains(when, w => w.StartsWith("2026-08-03 ", StringComparison.Ordinal));
        Assert.Contains(when, w => w.StartsWith("recorded 20", StringComparison.Ordinal) && w.EndsWith(" UTC", StringComparison.Ordinal));
    }

    private async Task State(
        string kind, string quantity, params (double Value, string Unit, double Expanded, string UncertaintyUnit, string Day)[] results)
    {
        Fact Of(FactBody body, string day) => FactText.WriteDerived(
            FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture)), 0), body, ["device:A1"]);
        await Live.Submit(
            [
                Of(new DeviceRegistered(kind, null, null, "1", []), "2020-01-01"),
                .. results.Select(r => Of(
                    new CertificateIssued(quantity, null, null, null, null, null, null, quantity == "static-pressure" ? null : 250,
                        [new(AdjustmentState.AsFoundAndLeft, r.Value, r.Unit, r.Expanded, r.UncertaintyUnit, 2)],
                        null, null, null, null, null, null, null),
                    r.Day)),
            ],
            "test");
    }
}
