# Sourced by test.sh: what reads our documents that has nothing to do with us. The programs come from Debian, the modules
# from npm, in fixed versions that run on Debian's Node.js, into a folder of their own, which the tests find through
# SEAMWRIGHT_READERS.
reader_packages="python3 python3-ezdxf qpdf poppler-utils librsvg2-bin libxml2-utils libreoffice-calc-nogui chromium"
reader_modules="ical.js@2.2.1 gltf-validator@2.0.0-dev.3.10 puppeteer-core@24.43.1 axe-core@4.14.1 html-validate@9.7.1"
# where Node.js comes from elsewhere, npm comes with it
command -v npm >/dev/null || reader_packages="$reader_packages nodejs npm"

# readers FOLDER installs the modules there.
readers() {
	mkdir -p "$1"
	echo '{"private": true}' >"$1/package.json"
	npm install --prefix "$1" --no-audit --no-fund --ignore-scripts --silent $reader_modules
	SEAMWRIGHT_READERS=$1
	export SEAMWRIGHT_READERS
}
