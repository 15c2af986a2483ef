using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Start;

namespace MicRegister.Server.Tests.Pages;

public sealed class SentenceTests
{
    [Fact]
    public async Task The_demo_day_begins_with_what_has_to_start_first()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);

        var sentences = Sentence.Of(server.Live.Now, new(2026, 8, 3));

        Assert.Equal(new DateOnly(2026, 8, 4), sentences[0].By);
        Assert.Contains("Quillmere 26, in 29 days: calibrate", sentences[0].Text, StringComparison.Ordinal);
        Assert.Contains("7 of 72 stations would fail", sentences[0].Text, StringComparison.Ordinal);
        Assert.Equal("campaigns/QUILLMERE-26#to-calibrate", sentences[0].Address);
        // One thing alone leads to where it is cleared.
        Assert.Equal("devices/" + server.Live.Now.DeviceIds.First(d => server.Live.Now.Device(d)!.Serial == "C01-5") + "#certificates",
            sentences.Single(s => s.Text.Contains("enter what is missing of Recorder channel REC-8 C01-5", StringComparison.Ordinal))
                .Address);
        Assert.DoesNotContain(sentences, s => s.Text.Contains(".;", StringComparison.Ordinal));
        Assert.Equal(sentences.Select(s => s.By ?? DateOnly.MaxValue).Order(), sentences.Select(s => s.By ?? DateOnly.MaxValue));
        Assert.Contains(Sentence.Of(server.Live.Now, new(2026, 8, 20)), s => s.Text.Contains("too late for that", StringComparison.Ordinal));
        // The campaign is over; what fell due meanwhile, 24 months after 6 September 2024, is left.
        var after = Sentence.Of(server.Live.Now, new(2026, 9, 13));
        Assert.Contains("One device in service is overdue for calibration: Microphone A-12P 41022",
            Assert.Single(after, t => t.By is not null).Text, StringComparison.Ordinal);
        // What somebody began to weigh: of the 11 events of its list of planted troubles, five are left.
        Assert.EndsWith("Nobody has weighed 5 of the 11 events that it touches.", Assert.Single(after, t => t.By is null).Text,
            StringComparison.Ordinal);
    }

    // 31 August and six months is 28 February: the clamp as DueDay states it.
    [Fact]
    public void What_falls_due_is_told_by_the_devices_own_interval_or_its_certificate()
    {
        Fact Of(FactBody body, string day) => FactText.WriteDerived(FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), 0), body, ["device:A1"]);
        var issued = new CertificateIssued("sensitivity", null, null, null, null, null, null, null, [], null, null, null, null, null, null, null);
        Fact[] facts = [Of(new DeviceRegistered("microphone", null, null, "1", new() { ["interval-months"] = FieldValue.Of(6) }), "2026-01-01"), Of(issued, "2026-08-31")];

        Assert.Equal(new DateOnly(2027, 2, 28), Assert.Single(Sentence.Due(FactList.RegisterOf(facts), new(2027, 2, 1), new(2027, 3, 1))).Due);
        Assert.Empty(Sentence.Due(FactList.RegisterOf(facts), new(2027, 3, 1), new(2027, 4, 1)));
        // The earliest counts, as it does for the verdict on a campaign.
        Assert.Equal(new DateOnly(2027, 2, 5), Assert.Single(Sentence.Due(FactList.RegisterOf([facts[0], Of(issued with { DueDay = new(2027, 2, 5) }, "2026-08-31")]), new(2027, 2, 1), new(2027, 3, 1))).Due);
        Assert.Equal(new DateOnly(2027, 2, 28), Assert.Single(Sentence.Due(FactList.RegisterOf([facts[0], Of(issued with { DueDay = new(2027, 3, 5) }, "2026-08-31")]), new(2027, 2, 1), new(2027, 4, 1))).Due);
        Assert.Empty(Sentence.Due(FactList.RegisterOf([.. facts, Of(new DeviceStatusChanged(DeviceStatus.Retired, null), "2026-09-01")]), new(2027, 2, 1), new(2027, 3, 1)));
    }

    [Fact]
    public void What_was_found_of_many_corrections_is_one_sentence_that_says_how_often()
    {
        static FactId Id(int i) => FactId.Create(1 + i, new byte[10]);
        var stamp = new FactStamp(Occurred.On(new(2026, 1, 1)), "P1", "desk", 0);
        var circle = Enumerable.Range(0, 50).Select(i =>
            FactText.Write(Id(i), stamp, new FactAnnulled(Id((i + 1) % 50).ToString(), "x"), ["device:A1"]));

        var sentence = Assert.Single(Sentence.Of(FactList.RegisterOf(circle), new(2026, 5, 1)));
        Assert.EndsWith("none of it counts. (50 times)", sentence.Text, StringComparison.Ordinal);
    }
}
