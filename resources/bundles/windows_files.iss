; Recipe for Inno Setup 6: an installer of the folder that PyInstaller has made, with an entry in the Start menu and
; garden files that open by a double click. Only for who installs it: no administrator is needed.
;
;   iscc /DVersion=1.0 resources\bundles\windows_files.iss

#ifndef Version
  #define Version "0"
#endif

[Setup]
AppName=Bedwright
AppVersion={#Version}
DefaultDirName={localappdata}\Programs\Bedwright
PrivilegesRequired=lowest
DisableProgramGroupPage=yes
ChangesAssociations=yes
OutputDir=..\..\dist
OutputBaseFilename=Bedwright-{#Version}-setup
Compression=lzma2
SolidCompression=yes

[Files]
Source: "..\..\dist\Bedwright\*"; DestDir: "{app}"; Flags: recursesubdirs ignoreversion

[Icons]
Name: "{userprograms}\Bedwright"; Filename: "{app}\bedwright.exe"

[Registry]
Root: HKCU; Subkey: "Software\Classes\.bedwright"; ValueType: string; ValueData: "Bedwright.Garden"; Flags: uninsdeletevalue
Root: HKCU; Subkey: "Software\Classes\Bedwright.Garden"; ValueType: string; ValueData: "Plan of a garden"; Flags: uninsdeletekey
Root: HKCU; Subkey: "Software\Classes\Bedwright.Garden\DefaultIcon"; ValueType: string; ValueData: "{app}\bedwright.exe,0"
Root: HKCU; Subkey: "Software\Classes\Bedwright.Garden\shell\open\command"; ValueType: string; ValueData: """{app}\bedwright.exe"" open ""%1"""
