using Bunit;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using MicRegister.Server.Pages.Bench;
using MicRegister.Server.Pages.Shell;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor.Services;

namespace MicRegister.Server.Tests.Pages;

public sealed class BenchPageTests : BunitContext, IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private LiveRegister _live = null!;

    public async ValueTask InitializeAsync()
    {
        _live = new(JournalStore.Open(new DiskFiles(_folder.Path), TimeProvider.System));
        await _live.Submit(
            [.. Enumerable.Range(1, 9).Select(n => FactText.WriteDerived(
                FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("microphone", null, null, $"{n}", []),
                [Subject.Device("D" + n)]))],
            "test");
        Services.AddMudServices();
        Services.AddSingleton(TimeProvider.System);
        Services.AddHttpContextAccessor();
        Services.AddScoped<Screen>();
        Services.AddSingleton(new Speaking(null));
        Services.AddSingleton(new Desk(_live, TimeProvider.System, new DateOnly(2026, 8, 3)));
        JSInterop.Mode = JSRuntimeMode.Loose;
    }

    protected override async ValueTask DisposeAsyncCore()
    {
        await base.DisposeAsyncCore();
        await _live.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public void Each_key_works_out_one_line_and_what_all_share_works_out_all()
    {
        var page = Render<BenchPage>();
        var sheet = page.Instance.Sheet;
        for (var n = 0; n < 5; n++) page.FindAll("input[aria-label^='Serial number']")[n].Input($"{n + 1}");
        Assert.Equal(["D1", "D2", "D3", "D4", "D5"], sheet.Lines.Where(l => !l.IsEmpty).Select(l => l.Device!.Id));
        var before = sheet.Worked;

        page.FindAll("input[aria-label^='Serial number']")[1].Input("9");
        page.FindAll("input[aria-label^='Result']")[1].Input("-38");
        page.FindAll("input[aria-label^='Uncertainty']")[1].Input("0.1");
        page.FindAll("input[aria-label^='Certificate number']")[1].Input("C 1");
        page.FindAll("select[aria-label^='Unit,']")[1].Change("dB re 1 V/Pa");
        page.FindAll("select[aria-label^='Unit of uncertainty']")[1].Change("%");

        Assert.Equal(6, sheet.Worked - before);
        Assert.Equal("D9", sheet.Lines[1].Device!.Id);
        before = sheet.Worked;
        page.Find("input[type=date]").Change("2026-08-01");
        Assert.Equal(6, sheet.Worked - before); // five lines and the empty one
    }
}
