using System.Text;
using Bunit;
using MicRegister.Documents.Import;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Imports;
using MicRegister.Server.Pages.Imports;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Lists that were taken over, their day, and taking them back on a page.</summary>
public sealed class TakenListTests : PageContext
{
    private const string Fleet = "Kind,Model,Serial,Location,Date,Sensitivity [mV/Pa]\n"
        + "mic,A,1,Hall 1,2025-01-01,12.5\nmic,A,2,Hall 1,2025-03-01,12.5\n";

    [Fact]
    public async Task An_import_is_taken_back_after_it_was_said_what_goes_and_what_stays()
    {
        await Store(Fleet);
        var first = DeviceIdentity.IdOf("microphone", null, "A", "1");
        await Meanwhile([FactText.WriteDerived(
            new(Occurred.On(new(2026, 8, 1)), "ada", "desk", 1), new DeviceMoved("Van"), [Subject.Device(first)])]);
        Render<MudPopoverProvider>();
        var dialogs = Render<MudDialogProvider>();
        var page = Render<TakenList>();

        Assert.Equal(["list.csv", "Ada", "6", "2025-03-01", "counts"], page.FindAll("tbody tr td").Select(c => c.TextContent.Trim())
            .Where((_, i) => i is 0 or 2 or 3 or 4 or 5));
        page.FindAll("button").Single(b => b.TextContent.Trim() == "Take it back").Click();
        dialogs.WaitForAssertion(() => Assert.Contains(
            "3 facts would not count any more, 3 would stay.", dialogs.Markup, StringComparison.Ordinal));
        Assert.Contains("device moved: Van", dialogs.Find("[aria-label='Facts that stay']").TextContent, StringComparison.Ordinal);
        Assert.Equal(2, Live.Now.DeviceIds.Count());

        dialogs.FindAll("button").Last(b => b.TextContent.Trim() == "Take it back").Click();
        page.WaitForAssertion(() => Assert.Contains("taken back", page.FindAll("tbody tr td")[5].TextContent, StringComparison.Ordinal));
        Assert.Equal([first], Live.Now.DeviceIds);
    }

    [Fact]
    public async Task A_list_says_as_of_which_day_it_speaks_or_asks()
    {
        await Store(Fleet);
        Render<MudPopoverProvider>();
        var old = Report("Serial,Location\n2,Van\n", new(2025, 2, 1));
        var undated = Report("Serial,Location\n2,Van\n", null);

        Assert.Contains("1 row says otherwise", Render<AsOfSection>(p => p.Add(a => a.Report, old)).Markup, StringComparison.Ordinal);
        var asking = Render<AsOfSection>(p => p.Add(a => a.Report, undated));
        Assert.Contains(AsOfDay.Question, asking.Markup, StringComparison.Ordinal);
        Assert.Empty(Render<AsOfSection>(p => p.Add(a => a.Report, Report("Kind,Model,Serial\nmic,A,3\n", null))).Markup.Trim());
    }

    private FileReport Report(string text, DateOnly? asOf)
    {
        var importing = new Importing(Live.Now, Desk.Today, Importing.RecordedIn(Live.Log));
        Take(importing, text, asOf);
        return importing.Reports[0];
    }

    private async Task Store(string text)
    {
        var importing = new Importing(Live.Now, Desk.Today);
        Take(importing, text, null);
        await importing.Store(Live, "Ada", TimeProvider.System, Xunit.TestContext.Current.CancellationToken);
    }

    private static void Take(Importing importing, string text, DateOnly? asOf) => importing.Take(
        new MemoryStream(Encoding.UTF8.GetBytes(text)), "list.csv", ImportMapping.None with { AsOf = asOf }, null,
        Xunit.TestContext.Current.CancellationToken);
}
